#include "fabric/swatch.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

#include "base/measure.hpp"
#include "base/normal.hpp"
#include "fabric/sizes.hpp"

namespace ballchange {
namespace {

constexpr double kEdges = 0.408248;  // stitches: both edges, half a stitch each, evenly
constexpr double kTape = 0.204124;   // cm: both ends, 0.25 cm each, evenly
constexpr double kHands = 0.02;      // from swatch to swatch
constexpr double kHandsCountAs = 4;  // swatches

// Between two swatches that may both be right.
constexpr double kMostApart = 0.2;
constexpr double kDeviations = 3;
constexpr double kUsualSlope = kStitchBySize, kSlopeRange = 0.75;  // next_size.hpp, three deviations of it

// One measuring of a length per stitch or row: its logarithm, so that blurs are shares.
struct Taken {
  double log = 0;
  double blur = 0;
};
using AtSizes = std::map<std::optional<double>, std::vector<Taken>>;

Taken taken(const Counted& counted) {
  assert(counted.count > 0 && counted.over > Length());
  return {std::log(counted.over.cm() / counted.count), std::hypot(kEdges / counted.count, kTape / counted.over.cm())};
}

Taken taken(const YarnTold& told) {
  assert(told.stitches > 0 && told.yarn > Length());
  return {std::log(told.yarn.cm() / told.stitches), told.doubt / told.yarn};
}

double plain_mean(const std::vector<Taken>& all) {
  double sum = 0;
  for (const Taken& one : all) sum += one.log;
  return sum / static_cast<double>(all.size());
}

// s: what swatches repeated at one size differ by, beyond what measuring explains, and the usual.
double hands(const AtSizes& at) {
  double beyond = 0;
  double repeats = 0;
  for (const auto& [mm, all] : at) {
    if (all.size() < 2) continue;
    const double mean = plain_mean(all);
    double blur = 0;
    for (const Taken& one : all) {
      beyond += (one.log - mean) * (one.log - mean);
      blur += one.blur * one.blur;
    }
    const auto n = static_cast<double>(all.size());
    beyond -= (n - 1) * blur / n;
    repeats += n - 1;
  }
  return std::sqrt((kHandsCountAs * kHands * kHands + std::max(0.0, beyond)) / (kHandsCountAs + repeats));
}

GaugeMean mean_of(const std::vector<Taken>& all, double s) {
  double weights = 0;
  double sum = 0;
  for (const Taken& one : all) {
    const double weight = 1 / (one.blur * one.blur + s * s);
    weights += weight;
    sum += weight * one.log;
  }
  return {Length::cm(std::exp(sum / weights)), 1 / std::sqrt(weights)};
}

AtSizes counts(std::span<const Swatch> swatches, std::optional<Counted> Swatch::*which) {
  AtSizes at;
  for (const Swatch& swatch : swatches) {
    if (const auto& counted = swatch.*which) at[swatch.mm].push_back(taken(*counted));
  }
  return at;
}

AtSizes yarns(std::span<const Swatch> swatches) {
  AtSizes at;
  for (const Swatch& swatch : swatches) {
    for (const YarnTold& told : swatch.yarn) at[swatch.mm].push_back(taken(told));
  }
  return at;
}

}  // namespace

YarnTold yarn_of_stitches(double stitches, Length yarn) {
  const Tape tape;
  return {stitches, yarn, Length::cm(std::hypot((tape.fixed + tape.share * yarn).cm(), kEdges / stitches * yarn.cm()))};
}

YarnTold yarn_of_rows(double stitches_in_all, Length yarn) {
  const Tape tape;
  return {stitches_in_all, yarn, tape.fixed + tape.share * yarn};
}

YarnTold yarn_of_repeat(double stitches, Length repeat, Length doubt) {
  return {stitches, repeat, Length::cm(std::hypot(doubt.cm(), kEdges / stitches * repeat.cm()))};
}

Length GaugeMean::give_or_take() const { return mean * (kNineInTen * share); }
double GaugeMean::give_or_take_in_10cm() const { return in_10cm() * kNineInTen * share; }

std::vector<SizeGauge> gauges(std::span<const Swatch> swatches) {
  std::map<std::optional<double>, SizeGauge> found;
  for (const Swatch& swatch : swatches) {
    SizeGauge& gauge = found[swatch.mm];
    gauge.mm = swatch.mm;
    ++gauge.swatches;
  }
  const auto fill = [&found](const AtSizes& at, std::optional<GaugeMean> SizeGauge::*which) {
    const double s = hands(at);
    for (const auto& [mm, all] : at) found[mm].*which = mean_of(all, s);
  };
  fill(counts(swatches, &Swatch::stitches), &SizeGauge::stitch);
  fill(counts(swatches, &Swatch::rows), &SizeGauge::row);
  fill(yarns(swatches), &SizeGauge::yarn);
  std::vector<SizeGauge> sorted;
  for (const auto& [mm, gauge] : found) sorted.push_back(gauge);
  return sorted;
}

std::optional<Disagreement> disagreement(std::span<const Swatch> swatches) {
  std::optional<Disagreement> worst;
  double farthest = 0;
  for (const auto which : {&Swatch::stitches, &Swatch::rows}) {
    for (std::size_t b = 0; b < swatches.size(); ++b) {
      for (std::size_t a = 0; a < b; ++a) {
        const Swatch& x = swatches[a];
        const Swatch& y = swatches[b];
        if (!(x.*which) || !(y.*which) || x.mm.has_value() != y.mm.has_value()) continue;
        const Taken one = taken(*(x.*which));
        const Taken other = taken(*(y.*which));
        const double thicker = x.mm ? std::log(*y.mm / *x.mm) : 0;
        const double allowed =
            kMostApart + kDeviations * std::hypot(one.blur, other.blur) + kSlopeRange * std::abs(thicker);
        const double beyond = std::abs(other.log - one.log - kUsualSlope * thicker) - allowed;
        if (beyond <= farthest) continue;
        farthest = beyond;
        worst = Disagreement{a, b, which};
      }
    }
  }
  return worst;
}

std::optional<Sharper> sharper(std::span<const Swatch> swatches, std::optional<double> mm) {
  const AtSizes at = counts(swatches, &Swatch::stitches);
  const auto here = at.find(mm);
  if (here == at.end()) return std::nullopt;
  const Counted* widest = nullptr;
  for (const Swatch& swatch : swatches) {
    if (swatch.mm != mm || !swatch.stitches) continue;
    if (widest == nullptr || swatch.stitches->over > widest->over) widest = &*swatch.stitches;
  }
  const double s = hands(at);
  const Taken as_is = taken(*widest);
  std::vector<Taken> another = here->second;
  another.push_back(as_is);
  std::vector<Taken> wider = here->second;
  const auto same = std::find_if(wider.begin(), wider.end(),
                                 [&](const Taken& one) { return one.blur == as_is.blur && one.log == as_is.log; });
  same->blur /= 2;
  return Sharper{widest->over * 2, mean_of(wider, s), mean_of(another, s)};
}

}  // namespace ballchange
