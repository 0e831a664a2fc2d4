#include <fmt/format.h>

#include <algorithm>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "ledger/folding.hpp"
#include "ledger/joined.hpp"
#include "ledger/shifts.hpp"

namespace ballchange {
namespace {

constexpr Length kCloseBy = 3_cm;  // as near to a change as no join is laid where that can be helped

}  // namespace

// What can't be read is a remark: the row it came with counts all the same.
void Folding::take_seen(const std::string& text) {
  try {
    Seen seen = parse_seen(text, state_.yarn.repeat.colours(), named("seen"));
    if (seen.what == Seen::What::counted) {
      take_count(seen);
      return;
    }
    const WorkPlace change = change_seen(seen);
    // Nearly always behind all others.
    auto at = state_.sightings.end();
    while (at != state_.sightings.begin() && std::prev(at)->change > change) --at;
    state_.sightings.insert(at, Sighting{entry_, std::move(seen), change, {}});
  } catch (const Problem& problem) {
    remark(problem.what());
  }
}

void Folding::take_count(const Seen& seen) {
  const JoinState* last = strands_.begun() ? strands_.last_landed() : nullptr;
  if (last == nullptr) {
    throw Problem(Fault::content, fmt::format("{}: '{}' is for a joined section, and no join is in the work",
                                              named("seen"), printable(seen.text, 60)));
  }
  const std::size_t join = seen.place ? *join_counted(state_.joins, strands_.landed(), *seen.place)
                                      : static_cast<std::size_t>(last - state_.joins.data());
  JoinState& counted = state_.joins[join];
  const Gauge& gauge = counted.place ? state_.gauge.at(*counted.place) : state_.gauge.now();
  const auto lies = section_of(counted);
  if (lies && std::find(lies->may_seem.begin(), lies->may_seem.end(), seen.colour) == lies->may_seem.end()) {
    throw Problem(
        Fault::content,
        fmt::format("{}: '{}': by its readings the join of entry {} lies in {}; count that, or tell near "
                    "which row the {} lies that was counted",
                    named("seen"), printable(seen.text, 60), counted.entry, colour(lies->colour), colour(seen.colour)));
  }
  const Fabric fabric{state_.fabric.working, gauge.yarn_per_stitch, gauge.yarn_per_turn, state_.fabric.stitches};
  const auto into = lies && lies->colour == seen.colour ? lies->into : std::nullopt;
  const auto yarn = yarn_counted(fabric, counted.place, into, seen.stitches);
  if (!yarn) {
    throw Problem(Fault::content, fmt::format("{}: '{}' says no length while the yarn per stitch isn't known; tell it "
                                              "with gauge",
                                              named("seen"), printable(seen.text, 60)));
  }
  counted.seen = SectionSeen{entry_, seen.colour, seen.stitches, *yarn};
}

std::string Folding::colour(ColourId id) const { return printable(state_.yarn.repeat.colours()[id].name, 40); }

// Nothing where the old end's reading isn't kept, or can't be read.
std::optional<JoinedSection> Folding::section_of(const JoinState& join) const {
  const auto& entry = std::get<did::Join>(*entries_[static_cast<std::size_t>(join.entry - 1)]);
  if (!entry.old_reading || !join.allowance) return std::nullopt;
  Palette palette{state_.yarn.repeat.colours(), false};
  Ruler ruler = state_.ruler;
  if (!ruler.in_stitches) ruler.bare = project_.units;
  try {
    const Reading reading = parse_reading(*entry.old_reading, End::old_end, palette, ruler, "old");
    const Length half = *join.allowance / 2;
    return joined_section(reading, state_.yarn.repeat, join.trim_old + half, half + kCloseBy);
  } catch (const Problem&) {
    return std::nullopt;
  }
}

// Ravelled back: that part of the work is no more.
void Folding::forget_seen_past(const WorkPlace& back) {
  while (!state_.sightings.empty() && state_.sightings.back().change > back) state_.sightings.pop_back();
}

WorkPlace Folding::change_seen(const Seen& seen) const {
  const WorkPlace& place = *seen.place;
  const std::optional<int> stitches = state_.fabric.stitches;
  if (!place.stitch) return {place.row, stitches ? std::optional(*stitches / 2) : std::nullopt};
  return {place.row, *place.stitch - (seen.what == Seen::What::begins ? 1 : 0)};
}

void Folding::tell_used_seen() {
  for (Sighting& sighting : state_.sightings) sighting.used = state_.gauge.used(sighting.change);
}

}  // namespace ballchange
