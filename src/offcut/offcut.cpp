#include "offcut/offcut.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

#include "base/normal.hpp"
#include "join/target.hpp"

namespace ballchange::offcuts {
namespace {

// From working order to the repeat's own numbering, and back.
std::size_t renumbered(const Repeat& repeat, Direction direction, std::size_t section) {
  return direction == Direction::forward ? section : repeat.size() - 1 - section;
}

Length place_in(const Repeat& repeat, Direction direction, Length place) {
  return direction == Direction::forward ? place : wrap(-place, repeat.total());
}

// The repeat as the piece runs along it.
Repeat along(const Repeat& repeat, Direction direction) {
  return direction == Direction::forward ? repeat : repeat.mirrored();
}

Length mean_of(const Repeat& runs, const Stretch& stretch) {
  Length sum;
  for (std::size_t n = 0; n < stretch.count; ++n) {
    sum += runs.sections()[(stretch.first + n) % runs.size()].length;
  }
  return sum;
}

Length start_of(const Repeat& runs, const Stretch& stretch) { return runs.start(stretch.first); }
Length end_of(const Repeat& runs, const Stretch& stretch) {
  return runs.start((stretch.first + stretch.count) % runs.size());
}

// The strand as it was read, and beyond that as the repeat goes on, from the loose end inward, longer than `reach`.
std::vector<Stretch> inward(const Repeat& repeat, const Repeat& runs, const Strand& strand, Length reach) {
  const Reading& reading = strand.reading;
  const Direction direction = strand.placing.best().direction;
  std::vector<Stretch> found;
  Length sum;
  for (const Explained& why : strand.placing.why) {
    const Entry& entry = reading.entries[why.entry];
    Stretch stretch{entry.colour, renumbered(repeat, direction, why.sections.front()), why.sections.size(), Length()};
    const bool open = why.entry + 1 == reading.entries.size() && !reading.bar_at_open_end;
    const Length mean = mean_of(runs, stretch);
    stretch.length = !entry.length ? mean : open ? std::max(*entry.length, mean) : *entry.length;
    sum += stretch.length;
    found.push_back(stretch);
  }
  const bool old_end = reading.end == End::old_end;
  while (sum <= reach) {
    const Stretch& last = found.back();
    const std::size_t next =
        old_end ? (last.first + runs.size() - 1) % runs.size() : (last.first + last.count) % runs.size();
    found.push_back({runs.sections()[next].colour, next, 1, runs.sections()[next].length});
    sum += found.back().length;
  }
  return found;
}

}  // namespace

Length Offcut::length() const {
  Length sum;
  for (const Stretch& stretch : stretches) sum += stretch.length;
  return sum;
}

Offcut part_of(const Repeat& repeat, const Offcut& offcut, Length from, Length to) {
  const Repeat runs = along(repeat, offcut.direction);
  const std::size_t count = offcut.stretches.size();
  Offcut part = offcut;
  part.stretches.clear();
  // Told from the change that the stretch begins or ends with, where it has one.
  const auto place_at = [&](std::size_t index, Length begins, Length at, bool from_its_end) {
    const Stretch& stretch = offcut.stretches[index];
    const bool has_end = index + 1 < count;
    const bool has_start = index > 0;
    if (has_end && (from_its_end || !has_start)) return end_of(runs, stretch) - (begins + stretch.length - at);
    if (has_start) return start_of(runs, stretch) + (at - begins);
    return offcut.start + (at - begins);
  };
  Length begins;
  for (std::size_t index = 0; index < count; ++index) {
    const Stretch& stretch = offcut.stretches[index];
    const Length ends = begins + stretch.length;
    const Length low = std::max(begins, from);
    const Length high = std::min(ends, to);
    if (high > low + joining::hardly) {
      if (part.stretches.empty() && from > Length()) {
        part.start = wrap(place_at(index, begins, low, true), repeat.total());
      }
      part.stretches.push_back(stretch);
      part.stretches.back().length = high - low;
      if (to < offcut.length() - joining::hardly) {
        part.finish = wrap(place_at(index, begins, high, false), repeat.total());
      }
    }
    begins = ends;
  }
  assert(!part.stretches.empty());
  return part;
}

Offcut off_end(const Repeat& repeat, const Strand& strand, Length trim) {
  const Placing& placing = strand.placing;
  assert(placing.verdict == Verdict::settled && trim > Length());
  Offcut all;
  all.direction = placing.best().direction;
  all.doubt = (placing.high - placing.low) / 2;
  all.sureness = placing.sureness;
  const Repeat runs = along(repeat, all.direction);
  all.stretches = inward(repeat, runs, strand, trim);
  const Length loose_end = place_in(repeat, all.direction, placing.best().place);
  if (strand.reading.end == End::new_end) {
    all.start = loose_end;
    all.finish = end_of(runs, all.stretches.back());
    return part_of(repeat, all, Length(), trim);
  }
  all.start = start_of(runs, all.stretches.back());
  all.finish = loose_end;
  std::reverse(all.stretches.begin(), all.stretches.end());
  const Length length = all.length();
  return part_of(repeat, all, length - trim, length);
}

Offcut turned(const Repeat& repeat, const Offcut& offcut) {
  Offcut other = offcut;
  other.direction = offcut.direction == Direction::forward ? Direction::backward : Direction::forward;
  other.start = wrap(-offcut.finish, repeat.total());
  other.finish = wrap(-offcut.start, repeat.total());
  std::reverse(other.stretches.begin(), other.stretches.end());
  for (Stretch& stretch : other.stretches) {
    const std::size_t last = (stretch.first + stretch.count - 1) % repeat.size();
    stretch.first = repeat.size() - 1 - last;
  }
  return other;
}

Strand end_of(const Repeat& repeat, const Offcut& offcut, End end) {
  const bool old_end = end == End::old_end;
  std::vector<Stretch> stretches = offcut.stretches;
  if (old_end) std::reverse(stretches.begin(), stretches.end());
  Strand strand;
  strand.cut_short = true;
  strand.reading.end = end;
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const Stretch& stretch = stretches[i];
    strand.reading.entries.push_back({stretch.colour, stretch.length, 0, i + 1});
    Explained why;
    why.entry = i;
    for (std::size_t n = 0; n < stretch.count; ++n) {
      why.sections.push_back(renumbered(repeat, offcut.direction, (stretch.first + n) % repeat.size()));
    }
    strand.placing.why.push_back(std::move(why));
  }
  const Stretch& first = stretches.front();
  Placing& placing = strand.placing;
  placing.verdict = Verdict::settled;
  placing.sureness = offcut.sureness;
  placing.place = place_in(repeat, offcut.direction, old_end ? offcut.finish : offcut.start);
  placing.low = placing.place - offcut.doubt;
  placing.high = placing.place + offcut.doubt;
  placing.spread_sd = offcut.doubt.cm() / kNineInTen;
  const std::size_t boundary = old_end ? first.first : (first.first + first.count) % repeat.size();
  placing.candidates.push_back({offcut.direction, boundary, placing.place, offcut.sureness});
  return strand;
}

}  // namespace ballchange::offcuts
