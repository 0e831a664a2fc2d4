#include "fabric/next_size.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

namespace ballchange {
namespace {

constexpr double kUsualSlope = kStitchBySize, kSlopeDoubt = 0.25;
constexpr double kFarthest = 1.5;  // times the size swatched
constexpr double kNear = 0.5;      // stitches or rows in 10 cm

double off_by(const GaugeMean& expected, Length wanted) { return std::abs(expected.in_10cm() - 10 / wanted.cm()); }

// How a width (or height) follows the size. x = ln mm, y = ln cm.
class Growth {
 public:
  Growth(std::span<const SizeGauge> gauges, std::optional<GaugeMean> SizeGauge::*which) {
    for (const SizeGauge& gauge : gauges) {
      const auto& mean = gauge.*which;
      if (gauge.mm && mean) add({std::log(*gauge.mm), std::log(mean->mean.cm()), mean->share * mean->share});
    }
    assert(!knots_.empty());
    slope();
  }

  [[nodiscard]] GaugeMean at(double mm) const {
    const double x = std::log(mm);
    const auto above = std::find_if(knots_.begin(), knots_.end(), [x](const Knot& knot) { return knot.x >= x; });
    if (above == knots_.begin() || above == knots_.end()) {
      const Knot& end = above == knots_.end() ? knots_.back() : knots_.front();
      const double far = x - end.x;
      return mean(end.y + slope_ * far, end.variance + far * far * slope_variance_);
    }
    const Knot& low = *(above - 1);
    const double t = (x - low.x) / (above->x - low.x);
    return mean(low.y + t * (above->y - low.y), (1 - t) * (1 - t) * low.variance + t * t * above->variance);
  }

  // As near as swatches tell it: what another size does to it is no excuse.
  [[nodiscard]] bool met(const GaugeMean& expected, double mm, Length wanted) const {
    const double x = std::log(mm);
    const Knot& near = *std::min_element(knots_.begin(), knots_.end(), [x](const Knot& a, const Knot& b) {
      return std::abs(a.x - x) < std::abs(b.x - x);
    });
    const GaugeMean swatched{expected.mean, std::sqrt(near.variance)};
    return off_by(expected, wanted) <= std::max(kNear, swatched.give_or_take_in_10cm());
  }

  [[nodiscard]] double mm_for(Length width) const {
    const double y = std::log(width.cm());
    const auto above = std::find_if(knots_.begin(), knots_.end(), [y](const Knot& knot) { return knot.y >= y; });
    if (above == knots_.begin() || above == knots_.end()) {
      const Knot& end = above == knots_.end() ? knots_.back() : knots_.front();
      return std::exp(end.x + (y - end.y) / slope_);
    }
    const Knot& low = *(above - 1);
    return std::exp(low.x + (y - low.y) / (above->y - low.y) * (above->x - low.x));
  }

 private:
  struct Knot {
    double x = 0, y = 0, variance = 0;
  };

  static GaugeMean mean(double y, double variance) { return {Length::cm(std::exp(y)), std::sqrt(variance)}; }

  // From thin to thick; whatever comes out no wider than the one before it is one with it.
  void add(Knot knot) {
    while (!knots_.empty() && knots_.back().y >= knot.y) {
      const Knot other = knots_.back();
      knots_.pop_back();
      const double here = 1 / knot.variance;
      const double there = 1 / other.variance;
      knot = {(here * knot.x + there * other.x) / (here + there), (here * knot.y + there * other.y) / (here + there),
              1 / (here + there)};
    }
    knots_.push_back(knot);
  }

  void slope() {
    double weights = 0;
    double x = 0;
    double y = 0;
    for (const Knot& knot : knots_) {
      weights += 1 / knot.variance;
      x += knot.x / knot.variance;
      y += knot.y / knot.variance;
    }
    x /= weights;
    y /= weights;
    double along = 1 / (kSlopeDoubt * kSlopeDoubt);
    double up = kUsualSlope * along;
    for (const Knot& knot : knots_) {
      along += (knot.x - x) * (knot.x - x) / knot.variance;
      up += (knot.x - x) * (knot.y - y) / knot.variance;
    }
    slope_ = up / along;
    slope_variance_ = 1 / along;
  }

  std::vector<Knot> knots_;
  double slope_ = kUsualSlope, slope_variance_ = 0;
};

// All that is wanted of one size, and how far it is from that.
struct Tried {
  ExpectedGauge expected;
  bool met = true;
  double miss = 0;
};

class Search {
 public:
  Search(std::span<const SizeGauge> gauges, Tool tool, const WantedGauge& wanted)
      : gauges_(gauges), tool_(tool), wanted_(wanted) {
    if (wanted.stitch) stitch_.emplace(gauges, &SizeGauge::stitch);
    if (wanted.row) row_.emplace(gauges, &SizeGauge::row);
  }

  NextSize operator()() const {
    NextSize next;
    if (stitch_) next.stitches_at_mm = stitch_->mm_for(*wanted_.stitch);
    if (row_) next.rows_at_mm = row_->mm_for(*wanted_.row);
    const std::vector<Tried> all = within_reach();
    next.best = nearest(all, wanted_);
    if (wanted_.stitch) next.for_stitches = nearest(all, {wanted_.stitch, {}});
    if (wanted_.row) next.for_rows = nearest(all, {{}, wanted_.row});
    const Tried best = tried(next.best->size, wanted_);
    if (const auto kept = swatched(all)) {
      next.best = kept;
      next.reach = Reach::keep;
    } else if (best.met) {
      next.reach = was_swatched(best.expected.size.mm) ? Reach::keep : Reach::try_next;
    } else {
      next.reach = why_not(next);
      if (next.reach == Reach::at_odds) next.best = next.for_stitches;
    }
    return next;
  }

 private:
  [[nodiscard]] Tried tried(const ToolSize& size, const WantedGauge& wanted) const {
    Tried one{{size, {}, {}}};
    const auto take = [&](const std::optional<Growth>& growth, const std::optional<Length>& length) {
      const GaugeMean mean = growth->at(size.mm);
      const double off = off_by(mean, *length);
      one.met = one.met && growth->met(mean, size.mm, *length);
      one.miss = std::hypot(one.miss, off * length->cm());  // a share of the count
      return mean;
    };
    if (wanted.stitch) one.expected.stitch = take(stitch_, wanted.stitch);
    if (wanted.row) one.expected.row = take(row_, wanted.row);
    return one;
  }

  [[nodiscard]] bool was_swatched(double mm) const {
    return std::any_of(gauges_.begin(), gauges_.end(), [mm](const SizeGauge& gauge) { return gauge.mm == mm; });
  }

  // Sizes that are sold, and those swatched with, whoever sold them.
  [[nodiscard]] std::vector<Tried> within_reach() const {
    std::vector<Tried> all;
    for (const ToolSize& size : sizes(tool_)) {
      const bool reached = std::any_of(gauges_.begin(), gauges_.end(), [&](const SizeGauge& gauge) {
        return gauge.mm && std::max(size.mm / *gauge.mm, *gauge.mm / size.mm) <= kFarthest;
      });
      if (reached) all.push_back(tried(size, wanted_));
    }
    for (const SizeGauge& gauge : gauges_) {
      const bool sold = std::any_of(all.begin(), all.end(),
                                    [&](const Tried& one) { return gauge.mm && one.expected.size.mm == *gauge.mm; });
      if (gauge.mm && !sold) all.push_back(tried({*gauge.mm, ""}, wanted_));
    }
    assert(!all.empty());
    return all;
  }

  [[nodiscard]] ExpectedGauge nearest(const std::vector<Tried>& all, const WantedGauge& wanted) const {
    const auto off = [&](const Tried& one) { return tried(one.expected.size, wanted).miss; };
    return std::min_element(all.begin(), all.end(), [&](const Tried& a, const Tried& b) { return off(a) < off(b); })
        ->expected;
  }

  // Of the sizes that were swatched and give what is wanted, the one that comes nearest. Its own count says more of it
  // than the line through all sizes.
  [[nodiscard]] std::optional<ExpectedGauge> swatched(const std::vector<Tried>& all) const {
    std::optional<ExpectedGauge> best;
    double least = 0;
    for (const SizeGauge& gauge : gauges_) {
      if (!gauge.mm) continue;
      const auto same =
          std::find_if(all.begin(), all.end(), [&](const Tried& one) { return one.expected.size.mm == *gauge.mm; });
      ExpectedGauge own = same->expected;
      double miss = 0;
      bool near = true;
      const auto hold = [&](std::optional<GaugeMean>& mean, const std::optional<GaugeMean>& counted,
                            const std::optional<Length>& length) {
        if (!length) return;
        if (counted) mean = counted;
        const double off = off_by(*mean, *length);
        near = near && off <= kNear;
        miss = std::hypot(miss, off * length->cm());
      };
      hold(own.stitch, gauge.stitch, wanted_.stitch);
      hold(own.row, gauge.row, wanted_.row);
      if (!near || (best && least <= miss)) continue;
      best = own;
      least = miss;
    }
    return best;
  }

  [[nodiscard]] Reach why_not(const NextSize& next) const {
    const bool stitches = !wanted_.stitch || tried(next.for_stitches->size, {wanted_.stitch, {}}).met;
    const bool rows = !wanted_.row || tried(next.for_rows->size, {{}, wanted_.row}).met;
    if (stitches && rows) return Reach::at_odds;
    const auto reached = [&](const std::optional<double>& mm) {
      return !mm || std::any_of(gauges_.begin(), gauges_.end(), [&](const SizeGauge& gauge) {
        return gauge.mm && std::max(*mm / *gauge.mm, *gauge.mm / *mm) <= kFarthest;
      });
    };
    return reached(next.stitches_at_mm) && reached(next.rows_at_mm) ? Reach::no_size : Reach::out_of_yarn;
  }

  std::span<const SizeGauge> gauges_;
  Tool tool_;
  const WantedGauge& wanted_;
  std::optional<Growth> stitch_, row_;
};

}  // namespace

NextSize next_size(std::span<const SizeGauge> gauges, Tool tool, const WantedGauge& wanted) {
  assert(wanted.stitch || wanted.row);
  return Search(gauges, tool, wanted)();
}

}  // namespace ballchange
