#include "creep/walk.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace ballchange::creeping {
namespace {

double square(Length length) { return length.cm() * length.cm(); }

// Turns lie at the ends of rows; between them a row takes S w + v.
double share_in_stitches(const Gauge& gauge, std::optional<int> stitches) {
  if (!stitches) return 1;
  const Length in = *stitches * *gauge.yarn_per_stitch;
  return in / (in + gauge.yarn_per_turn);
}

}  // namespace

Walk::Walk(const State& state, const Repeat& repeat, Length start) : state_(state), repeat_(repeat), start_(start) {
  lay_stretches();
  lay_turns();
  variances_.push_back(0);
  for (const Section& section : repeat.sections()) {
    variances_.push_back(variances_.back() + square(section.plus_minus));
  }
}

// The foundation comes before the first: its yarn is told, not reckoned by a gauge.
void Walk::lay_stretches() {
  for (const GaugeHistory::Stretch& stretch : state_.gauge.stretches()) {
    if (!stretch.used || !stretch.gauge.yarn_per_stitch) continue;
    const Length before = stretches_.empty() ? Length() : in_stitches(*stretch.used);
    stretches_.push_back({*stretch.used, before, share_in_stitches(stretch.gauge, state_.fabric.stitches)});
  }
}

void Walk::lay_turns() {
  const Length doubt = habits(state_.ruler.in_stitches ? Reckoning::stitches : Reckoning::centimetres).join_doubt;
  const double counted = square(*state_.gauge.now().yarn_per_stitch / 2);
  const auto& gauges = state_.gauge.stretches();
  for (std::size_t i = 1; i < gauges.size(); ++i) {
    const auto size =
        std::find_if(state_.gauge_changes.begin(), state_.gauge_changes.end(),
                     [&](const GaugeChange& one) { return one.other_size && one.used == gauges[i].used; });
    const bool other_size = size != state_.gauge_changes.end();
    const bool other = gauges[i].gauge.yarn_per_stitch != gauges[i - 1].gauge.yarn_per_stitch;
    if (!gauges[i].used || !(other || other_size)) continue;
    const auto& before = gauges[i - 1].gauge.yarn_per_stitch;
    const bool told = !other_size && before && gauges[i].gauge.yarn_per_stitch;
    turns_.push_back({*gauges[i].used, nullptr, {}, {}, 0, told ? *before / *gauges[i].gauge.yarn_per_stitch : 0});
  }
  for (const JoinState& join : state_.joins) {
    if (join.held != JoinHeld::in_work || !join.used) continue;
    turns_.push_back({*join.used, &join, {}, {}, join.seen ? counted : square(doubt), 0});
  }
  std::stable_sort(turns_.begin(), turns_.end(), [](const Turn& a, const Turn& b) { return a.used < b.used; });
  Length place = start_;
  Length used;
  for (Turn& turn : turns_) {
    turn.place = place + (turn.used - used);
    turn.after = turn.place + (turn.join != nullptr ? turn.join->shift.value_or(Length()) : Length());
    place = turn.after;
    used = turn.used;
  }
}

Length Walk::place(Length used) const {
  const auto next =
      std::upper_bound(turns_.begin(), turns_.end(), used, [](Length at, const Turn& turn) { return at < turn.used; });
  return next == turns_.begin() ? start_ + used : std::prev(next)->after + (used - std::prev(next)->used);
}

Length Walk::in_stitches(Length used) const {
  auto stretch = std::upper_bound(stretches_.begin(), stretches_.end(), used,
                                  [](Length at, const Stretch& s) { return at < s.from; });
  if (stretch == stretches_.begin()) return {};
  --stretch;
  return stretch->in_stitches + (used - stretch->from) * stretch->share;
}

Length Walk::in_stitches(Length from, Length to) const { return in_stitches(to) - in_stitches(from); }

double Walk::variance_at(Length at) const {
  constexpr Length hair = Length::cm(1e-6);  // changes are asked for, and a rounding must not miss a whole repeat
  const Length place = at + hair;
  const double repeats = std::floor(place / repeat_.total());
  const Spot spot = repeat_.spot(place);
  const Section& section = repeat_.sections()[spot.section];
  const double share = spot.into / section.length;
  return repeats * variances_.back() + variances_[spot.section] + share * square(section.plus_minus);
}

double Walk::section_variance(Length place) const {
  return square(repeat_.sections()[repeat_.spot(place).section].plus_minus);
}

double Walk::counting_variance(const Sighting& sighting) const {
  const Gauge& gauge = state_.gauge.at(*sighting.seen.place);
  double variance = square(*gauge.yarn_per_stitch / 2);
  if (!sighting.seen.place->stitch && state_.fabric.stitches) {
    variance += square(*state_.fabric.stitches * *gauge.yarn_per_stitch) / 12;
  }
  return variance;
}

const std::string* Walk::ball(std::size_t turns) const {
  for (std::size_t i = turns; i > 0; --i) {
    if (turns_[i - 1].join != nullptr) return &turns_[i - 1].join->new_ball;
  }
  const auto first = std::find_if(turns_.begin(), turns_.end(), [](const Turn& turn) { return turn.join != nullptr; });
  if (first != turns_.end()) return &first->join->old_ball;
  return state_.working ? &state_.balls[*state_.working].id : nullptr;
}

}  // namespace ballchange::creeping
