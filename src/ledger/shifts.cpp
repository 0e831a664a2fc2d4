#include "ledger/shifts.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace ballchange {
namespace {

// A change this close to a join's middle may be the join itself: stitches.
constexpr double kAtTheJoin = 1;
constexpr Length kHair = Length::cm(1e-6);

bool starts(const Seen& seen, const Repeat& repeat, std::size_t section) {
  const std::vector<Section>& sections = repeat.sections();
  const std::size_t before = section == 0 ? sections.size() - 1 : section - 1;
  return seen.what == Seen::What::begins ? seen.colour == sections[section].colour
                                         : seen.colour == sections[before].colour;
}

// The colour that both changes bound; nothing where they bound no section.
std::optional<ColourId> between(const Seen& first, const Seen& second, const Repeat& repeat) {
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    if (starts(first, repeat, k) && starts(second, repeat, (k + 1) % repeat.size())) return repeat.sections()[k].colour;
  }
  const bool one_colour = first.what == Seen::What::begins && second.what == Seen::What::ends;
  return one_colour && first.colour == second.colour ? std::optional(first.colour) : std::nullopt;
}

// The section around a join whose beginning and end were both seen, stitch by stitch.
std::optional<SectionSeen> seen_around(const State& state, const std::vector<Length>& joins_at, Length join) {
  const auto by_used = [](const Sighting& s, Length used) { return s.used && *s.used < used; };
  const auto after = std::lower_bound(state.sightings.begin(), state.sightings.end(), join, by_used);
  if (after == state.sightings.begin() || after == state.sightings.end()) return std::nullopt;
  const Sighting& first = *std::prev(after);
  const Sighting& second = *after;
  if (!first.used || !second.used || !first.seen.place->stitch || !second.seen.place->stitch) return std::nullopt;
  const auto colour = between(first.seen, second.seen, state.yarn.repeat);
  const Length stitch = *state.gauge.at(*second.seen.place).yarn_per_stitch;
  const Length close = kAtTheJoin * stitch - kHair;
  if (!colour || join - *first.used < close || *second.used - join < close) return std::nullopt;
  const auto from = std::upper_bound(joins_at.begin(), joins_at.end(), *first.used + kHair);
  if (std::lower_bound(from, joins_at.end(), *second.used - kHair) - from != 1) return std::nullopt;
  const double rows = second.change.row - first.change.row;  // times as many stitches, more than an int may hold
  const double counted =
      rows * state.fabric.stitches.value_or(0) + second.change.stitch.value_or(0) - first.change.stitch.value_or(0);
  const Length seen = *second.used - *first.used;
  // Half a stitch at each end.
  return SectionSeen{std::max(first.entry, second.entry), *colour, counted, seen, seen - stitch, seen + stitch, stitch};
}

}  // namespace

std::optional<Length> shift_by(const Repeat& repeat, ColourId colour, Length seen, std::optional<Length> recorded) {
  std::optional<Length> best;
  int fitting = 0;
  for (const Section& section : repeat.sections()) {
    // A section twice as long was read over a change, or holds another join.
    if (section.colour != colour || seen > 2 * section.length + kHair) continue;
    const Length shift = section.length - seen;
    ++fitting;
    const auto off = [&](Length s) { return abs(nearest(s - *recorded, repeat.total())); };
    if (!best || (recorded && off(shift) < off(*best))) best = shift;
  }
  if (!recorded && fitting > 1) return std::nullopt;
  return best ? std::optional(nearest(*best, repeat.total())) : std::nullopt;
}

std::optional<Length> yarn_counted(const Fabric& fabric, const std::optional<WorkPlace>& middle,
                                   std::optional<Length> into, double stitches) {
  if (!fabric.yarn_per_stitch) return std::nullopt;
  const Length stitch = *fabric.yarn_per_stitch;
  if (!fabric.stitches || !middle) return stitches * stitch;
  const double row = *fabric.stitches;
  const double at = middle->stitch.value_or(*fabric.stitches);
  if (into) return yarn_made(fabric, at * stitch - *into, stitches);
  const double turns = std::floor((at + stitches / 2) / row) - std::floor((at - stitches / 2) / row);
  return stitches * stitch + turns * fabric.yarn_per_turn;
}

std::optional<Length> running_shift_by(const State& state, Length stitch) {
  const Length repeat = state.yarn.repeat.total();
  Length running;
  for (const JoinState& join : state.joins) {
    if (join.held != JoinHeld::in_work) continue;
    auto shift = join.shift;
    if (const auto& seen = join.seen) {
      shift = shift_by(state.yarn.repeat, seen->colour, seen->yarn * (stitch / seen->stitch), join.recorded_shift);
    }
    if (!shift) return std::nullopt;
    running = nearest(running + *shift, repeat);
  }
  return running;
}

bool bears_out(const JoinState& join, const Repeat& repeat) {
  if (!join.seen || !join.shift || !join.recorded_shift) return false;
  const Length more = nearest(*join.shift - *join.recorded_shift, repeat.total());
  const Length reckoned = join.seen->yarn + more;
  return reckoned >= join.seen->least - kHair && reckoned <= join.seen->most + kHair;
}

std::optional<Length> shift_told(const JoinState& join, const Repeat& repeat) {
  return bears_out(join, repeat) ? join.recorded_shift : join.shift;
}

std::optional<Length> running_shift_told(const State& state) {
  const Repeat& repeat = state.yarn.repeat;
  Length as_told;
  double rounding = 0;  // cm^2
  for (const JoinState& join : state.joins) {
    if (join.held != JoinHeld::in_work) continue;
    const bool as_recorded = bears_out(join, repeat);
    const auto shift = as_recorded ? join.recorded_shift : join.shift;
    if (!shift) return std::nullopt;
    as_told = nearest(as_told + *shift, repeat.total());
    if (!as_recorded) continue;
    const Length either_way = (join.seen->most - join.seen->least) / 2;
    rounding += either_way.cm() * either_way.cm();
  }
  const auto& as_counted = state.totals.running_shift;
  const bool within = as_counted && abs(nearest(*as_counted - as_told, repeat.total())).cm() <= std::sqrt(rounding);
  return within ? std::optional(as_told) : as_counted;
}

void correct_shifts(State& state, const std::vector<std::size_t>& landed) {
  std::vector<Length> joins_at;
  for (const std::size_t index : landed) {
    if (state.joins[index].used) joins_at.push_back(*state.joins[index].used);
  }
  for (const std::size_t index : landed) {
    JoinState& join = state.joins[index];
    if (!join.seen && join.used) join.seen = seen_around(state, joins_at, *join.used);
    if (!join.seen) continue;
    const auto shift = shift_by(state.yarn.repeat, join.seen->colour, join.seen->yarn, join.recorded_shift);
    if (shift) {
      join.shift = shift;
    } else {
      join.seen.reset();
    }
  }
}

}  // namespace ballchange
