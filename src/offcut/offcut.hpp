#pragma once
#include <vector>

#include "join/advice.hpp"

// A piece cut off an end, with the places of its own two ends.
//
// Symbols: a, b the places of its first and its last end, in working order. A place is told from the nearest change on
// the piece itself, as the marks of a join are; where no change shows, from the end it was cut off. So it is as sure as
// the reading it came from, give or take what one section differs from another.
namespace ballchange::offcuts {

// One colour on it, whole or what the cut left of it. Sections are numbered in working order.
struct Stretch {
  ColourId colour = 0;
  std::size_t first = 0, count = 1;  // the sections under this name
  Length length;                     // in hand
};

struct Offcut {
  Direction direction = Direction::forward;  // backward: worked from its first stretch on it runs against the repeat
  std::vector<Stretch> stretches;            // in working order, never empty
  Length start, finish;                      // a, b: on the repeat in working order (the mirrored one when backward)
  Length doubt;                              // of either place, give or take
  double sureness = 1;
  [[nodiscard]] Length length() const;  // in hand
};

// What comes off a loose end when so much of it, more than nothing, is trimmed. The strand must be settled (asserted).
[[nodiscard]] Offcut off_end(const Repeat& repeat, const Strand& strand, Length trim);
// Of it, what lies between two lengths from its first end, 0 <= from < to <= length.
[[nodiscard]] Offcut part_of(const Repeat& repeat, const Offcut& offcut, Length from, Length to);
// Worked from its other end.
[[nodiscard]] Offcut turned(const Repeat& repeat, const Offcut& offcut);

// An end of it as a strand in hand, settled: its first as a fresh ball's, its last as a finishing one's.
[[nodiscard]] Strand end_of(const Repeat& repeat, const Offcut& offcut, End end);

}  // namespace ballchange::offcuts
