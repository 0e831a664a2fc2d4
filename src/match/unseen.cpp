#include "match/unseen.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/normal.hpp"
#include "match/fit.hpp"

namespace ballchange::matching {
namespace {

constexpr double negligible = 1e-12;

// A part of the repeat, in a side's working order.
struct Span {
  double from = 0, to = 0;  // cm
};

// One change the unseen one may be, with the likeliest stretch for the loose end.
struct Spread {
  double chance = 0;
  double likeliest = 0;
  Span span;
};

// Places the guess in the middle of `span`, the interval over its middle nine tenths.
void spread_over(const Model& model, Direction direction, const Span& span, Placing& placing) {
  const double middle = (span.from + span.to) / 2;
  const double half = 0.45 * (span.to - span.from);
  placing.place = wrap(Length::cm(direction == Direction::forward ? middle : -middle), model.repeat_total);
  placing.low = placing.place - Length::cm(half);
  placing.high = placing.place + Length::cm(half);
  placing.spread_sd = (span.to - span.from) / std::sqrt(12.0);
  placing.candidates.front().place = placing.place;
}

// Mean of how much a length of that mean and variance exceeds y, nothing when it does not.
double excess(const Block& block, double variance, double y) {
  const double sd = std::sqrt(block.variance + variance);
  const double z = (block.mean - y) / sd;
  return sd * std::exp(-z * z / 2) / root_two_pi + (block.mean - y) * normal_cdf(z);
}

// Chance of every change being the one that ends the unseen block, names and lengths counted.
std::vector<Spread> weigh_changes(const Side& side, const Observed& observed, const std::vector<Unseen>& runs) {
  const Measured& entry = observed.entries.front();
  const double y = entry.known ? entry.length : 0;
  std::vector<Spread> changes(side.size());
  for (const Unseen& run : runs) {
    Spread& spread = changes[run.boundary];
    spread.chance += run.chance;
    if (run.chance <= spread.likeliest) continue;
    spread.likeliest = run.chance;
    const double start = side.starts[run.boundary];
    const double near = std::max(y, run.others.mean);
    const double far = std::max(run.others.mean + run.cut.mean, near + 1);
    spread.span = observed.end == End::new_end ? Span{start - far, start - near} : Span{start + near, start + far};
  }
  return changes;
}

}  // namespace

std::vector<Unseen> unseen_runs(const Model& model, const Side& side, const Observed& observed) {
  const Measured& entry = observed.entries.front();
  const double y = entry.known ? entry.length : 0;
  std::vector<Unseen> found;
  const auto offer = [&](std::size_t boundary, double chance, const Run& run, const Block& others, std::size_t loose) {
    // The loose end lies anywhere in its section from where at least y is left: (1/R) E[(N + L - y)+ - (N - y)+].
    double room = excess(run.whole, entry.variance, y);
    if (run.count > 1) room -= excess(others, entry.variance, y);
    if (!(room > 0)) return;
    found.push_back({chance * room / model.total,
                     boundary,
                     run.first,
                     run.count,
                     others,
                     {side.mean[loose], side.variance[loose]}});
  };
  for (std::size_t k = 0; k < side.size(); ++k) {
    if (observed.end == End::new_end) {
      runs_at_open_end(side, observed.end, k, entry.colour, true, [&](const Run& run) {
        const Block others{run.whole.mean - side.mean[k], run.whole.variance - side.variance[k]};
        offer((k + run.count) % side.size(), run.weight, run, others, k);
        return run.weight > negligible;
      });
    } else {
      const double before = side.before[side.at(k, entry.colour)];
      runs_from(side, observed.end, k, entry.colour, false, [&](const Run& run) {
        offer(k, run.weight * before, run, run.others, side.previous(run.boundary));
        return run.weight > negligible;
      });
    }
  }
  return found;
}

bool place_without_change(const Model& model, const Observed& observed, const MatchOptions& options, Placing& placing) {
  std::vector<std::pair<Candidate, Span>> found;
  double sum = 0;
  bool possible = false;
  for (const Side& side : model.sides) {
    const double chance = model.chance(side.direction, options);
    if (chance == 0) continue;
    const std::vector<Unseen> runs = unseen_runs(model, side, observed);
    possible = possible || std::any_of(runs.begin(), runs.end(),
                                       [&](const Unseen& run) { return fits(model, observed, run, side.direction); });
    const std::vector<Spread> changes = weigh_changes(side, observed, runs);
    for (std::size_t boundary = 0; boundary < changes.size(); ++boundary) {
      const Spread& change = changes[boundary];
      const double middle = (change.span.from + change.span.to) / 2;
      const Length place = Length::cm(side.direction == Direction::forward ? middle : -middle);
      sum += chance * change.chance;
      found.push_back(
          {{side.direction, boundary, wrap(place, model.repeat_total), chance * change.chance}, change.span});
    }
  }
  if (!possible || !(sum > 0)) return false;
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first.probability > b.first.probability; });
  placing.verdict = Verdict::unsettled;
  placing.ask = Question{Question::Kind::next_change, 0, 0};
  for (auto& [candidate, span] : found) {
    candidate.probability /= sum;
    if (placing.candidates.empty() || candidate.probability > 0.01) placing.candidates.push_back(candidate);
  }
  spread_over(model, placing.best().direction, found.front().second, placing);
  placing.sureness = placing.probability();
  return true;
}

void widen_to_section(const Model& model, End end, Placing& placing) {
  const Candidate& best = placing.best();
  const Side& side = model.side(best.direction);
  const std::size_t beside = end == End::new_end ? side.previous(best.boundary) : best.boundary;
  const double start = side.starts[best.boundary];
  const double length = side.mean[beside];
  spread_over(model, best.direction, end == End::new_end ? Span{start - length, start} : Span{start, start + length},
              placing);
}

}  // namespace ballchange::matching
