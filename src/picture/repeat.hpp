#pragma once
#include <cstddef>
#include <vector>

#include "match/place.hpp"
#include "yarn/repeat.hpp"

// The repeat of a yarn as a line that closes on itself: its sections to scale, stretches that read alike, and where the
// loose end of a reading may lie. Centimetres of yarn from the start of the first section, in working order.
namespace ballchange {

struct RepeatPart {
  std::size_t section = 0;
  ColourId colour = 0;
  Length from, length;
};

// From one place to another, which lies past the end of the repeat where it runs over it: 0 <= from < total <= ...
struct RepeatSpan {
  Length from, to;
};

// So many sections, from two places or more on, that read the same.
struct AlikeStretches {
  std::vector<std::size_t> first;  // the section that each begins with
  std::size_t sections = 1;
  std::vector<RepeatSpan> spans;  // each's, in the same order
};

// Where a loose end may lie; nine in ten ends like it that are there lie in `within`.
struct RepeatPointer {
  Length place;
  RepeatSpan within;
  bool evenly = false;  // anywhere in it as likely as at `place`
  double probability = 0;
  Direction direction = Direction::forward;
};

struct RepeatScene {
  std::vector<Colour> colours;
  Length total;
  std::vector<RepeatPart> parts;
  std::vector<AlikeStretches> alike;    // the longest first
  std::vector<RepeatPointer> pointers;  // the likeliest first
};

// Two stretches of so many sections that read the same.
struct AlikePair {
  std::size_t first = 0, second = 0, sections = 1;
};

// `pairs`, longest first: those that share a stretch are told as one. `placing` may be null, or without candidates.
[[nodiscard]] RepeatScene repeat_scene(const Repeat& repeat, const std::vector<AlikePair>& pairs,
                                       const Placing* placing);

// The parts of a span that lie between two places of one round, 0 <= low < high <= total: none, one, or both its ends.
[[nodiscard]] std::vector<RepeatSpan> parts_within(const RepeatSpan& span, Length total, Length low, Length high);

}  // namespace ballchange
