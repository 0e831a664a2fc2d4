#include <fmt/core.h>

#include <algorithm>
#include <climits>
#include <cmath>
#include <cstdlib>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "ledger/folding.hpp"
#include "ledger/joined.hpp"
#include "ledger/shifts.hpp"
#include "ledger/worked.hpp"

namespace ballchange {
namespace {

constexpr Length kCloseBy = 3_cm;  // as near to a change as no join is laid where that can be helped

// Whoever tells half a stitch counts in halves.
double counted_to(double stitches) { return stitches == std::floor(stitches) ? 1 : 0.5; }

}  // namespace

// What can't be read is a remark: the row it came with counts all the same.
void Folding::take_seen(const std::string& text, const WorkPlace& stands) {
  try {
    Seen seen = parse_seen(text, state_.yarn.repeat.colours(), named("seen"));
    refuse_not_worked(seen, stands, state_.fabric, named("seen"));
    if (seen.what == Seen::What::counted) {
      take_count(seen);
      return;
    }
    const WorkPlace change = change_seen(seen);
    sightings_.emplace(change, Sighting{entry_, std::move(seen), change, {}});
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
  const std::size_t join = seen.place ? join_near(*seen.place) : static_cast<std::size_t>(last - state_.joins.data());
  JoinState& counted = state_.joins[join];
  const auto middle = place_of(counted);
  const bool other_size = state_.took_other_size();
  // A gauge told anew knows more of the same stitches; another hook made others.
  const Gauge& gauge = middle && other_size ? state_.gauge.at(*middle) : state_.gauge.now();
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
  const auto yarn = yarn_counted(fabric, middle, into, seen.stitches);
  if (!yarn) {
    throw Problem(Fault::content, fmt::format("{}: '{}' says no length while the yarn per stitch isn't known; tell it "
                                              "with gauge",
                                              named("seen"), printable(seen.text, 60)));
  }
  if (counted.seen && (counted.seen->colour != seen.colour || counted.seen->stitches != seen.stitches)) {
    const SectionSeen& before = *counted.seen;
    remark(fmt::format(
        "the join of entry {} was counted before, {} {:g} {}{}; now {}, which holds: cancel what is wrong",
        counted.entry, colour(before.colour), before.stitches, before.stitches == 1 ? "stitch" : "stitches",
        before.entry == entry_ ? std::string() : fmt::format(" by entry {}", before.entry), printable(seen.text, 60)));
  }
  const double near = counted_to(seen.stitches) / 2;
  const auto least = yarn_counted(fabric, middle, into, std::max(0.0, seen.stitches - near));
  const auto most = yarn_counted(fabric, middle, into, seen.stitches + near);
  counted.seen = SectionSeen{entry_, seen.colour, seen.stitches, *yarn, *least, *most, *gauge.yarn_per_stitch};
}

// Where a join of the work lies now: moved with its strand since it was told, or not.
std::optional<WorkPlace> Folding::place_of(const JoinState& join) const {
  if (!join.used || !join.place) return join.place;
  const auto used = state_.gauge.used(*join.place);
  const Length hair = Length::cm(1e-6);  // yarn laid down again comes out no nearer
  return used && abs(*used - *join.used) < hair ? join.place : state_.gauge.place(*join.used);
}

// The same of the k-th of the joins in the work.
std::optional<WorkPlace> Folding::landed_at(std::size_t k) { return place_of(state_.joins[strands_.landed(k)]); }

int Folding::stitches_off(std::size_t k, int stitch) {
  return std::abs(landed_at(k)->stitch.value_or(INT_MAX) - stitch);
}

// The first of the joins in the work that lies there or past it; as many as there are where none does.
std::size_t Folding::first_landed_from(const WorkPlace& from) {
  std::size_t low = 0, high = strands_.how_many_landed();
  while (low < high) {
    const std::size_t middle = low + (high - low) / 2;
    if (landed_at(middle) < from) {
      low = middle + 1;
    } else {
      high = middle;
    }
  }
  return low;
}

// Of those that lie in that row, of which there is one, the nearest to the stitch, or the first; the earlier of two.
std::size_t Folding::landed_in(int row, std::optional<int> stitch) {
  const std::size_t first = first_landed_from({row, 0});
  if (!stitch) return first;
  const std::size_t end = first_landed_from({row + 1, 0});
  const std::size_t next = std::clamp(first_landed_from({row, stitch}), first, end - 1);
  if (next == first || stitches_off(next - 1, *stitch) > stitches_off(next, *stitch)) return next;
  return std::clamp(first_landed_from(*landed_at(next - 1)), first, next - 1);
}

// Of the joins in the work, of which there is one, that nearest to a place: by rows, then by stitches.
std::size_t Folding::join_near(const WorkPlace& near) {
  const std::size_t past = first_landed_from({near.row, 0});
  const auto row_of = [&](std::size_t k) -> std::optional<int> {
    const auto place = k < strands_.how_many_landed() ? landed_at(k) : std::nullopt;
    return place ? std::optional(place->row) : std::nullopt;
  };
  const std::optional<int> below = past > 0 ? row_of(past - 1) : std::nullopt;
  const std::optional<int> above = row_of(past);
  if (!below && !above) return strands_.landed(0);
  const int up = above.value_or(INT_MAX) - near.row;
  const int down = below ? near.row - *below : INT_MAX;
  if (down < up) return strands_.landed(landed_in(near.row - down, near.stitch));
  const std::size_t upper = landed_in(near.row + up, near.stitch);
  if (up < down) return strands_.landed(upper);
  const std::size_t lower = landed_in(near.row - down, near.stitch);
  const bool nearer = near.stitch && stitches_off(upper, *near.stitch) < stitches_off(lower, *near.stitch);
  return strands_.landed(nearer ? upper : lower);
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
  sightings_.erase(sightings_.upper_bound(back), sightings_.end());
}

WorkPlace Folding::change_seen(const Seen& seen) const {
  const WorkPlace& place = *seen.place;
  const std::optional<int> stitches = state_.fabric.stitches;
  if (!place.stitch) return {place.row, stitches ? std::optional(*stitches / 2) : std::nullopt};
  return {place.row, *place.stitch - (seen.what == Seen::What::begins ? 1 : 0)};
}

void Folding::tell_sightings() {
  state_.sightings.reserve(sightings_.size());
  for (auto& [change, sighting] : sightings_) {
    sighting.used = state_.gauge.used(change);
    state_.sightings.push_back(std::move(sighting));
  }
}

}  // namespace ballchange
