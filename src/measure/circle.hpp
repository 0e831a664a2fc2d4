#pragma once
#include <cstddef>
#include <vector>

#include "match/density.hpp"
#include "match/runs.hpp"
#include "yarn/yarn.hpp"

// What the search for a repeat works on: a circle that is still being guessed at, and strands to guess it from.
namespace ballchange::measuring {

// One section of the circle.
struct Patch {
  ColourId colour = 0;
  double length = 0;  // cm, or stitches where the yarn is reckoned in them; 0 while it was not measured anywhere
  double sd = 0;      // the same
  [[nodiscard]] bool known() const { return length > 0; }
};
using Circle = std::vector<Patch>;

// What is known beforehand of how strands are read.
struct Lore {
  Lore(const std::vector<Colour>& palette, Reckoning reckoned);

  std::vector<Colour> colours;
  Reckoning reckoning;
  Length short_section;
  std::vector<double> names;  // [colour * colours + written]

  [[nodiscard]] double name(ColourId colour, ColourId written) const {
    return names[colour * colours.size() + written];
  }
  // Chance that a section adds to the entry before it: it was passed over, or written down under the same name.
  [[nodiscard]] double joins(const Patch& patch, ColourId written) const;
  [[nodiscard]] double seen(const Patch& patch, ColourId written) const;
  // Logarithm of what any length, and any colour beside another one, could be expected with: a section that is new to
  // the circle costs as much. `length` as a patch's.
  [[nodiscard]] double any_length(double length) const;
  [[nodiscard]] double any_colour() const;
};

// A strand in working order.
struct Line {
  std::vector<matching::Measured> entries;
  std::size_t from = 0, to = 0;  // those that are whole: from <= i < to
};
[[nodiscard]] Line line_of(const matching::Observed& observed);
// What its first `to` entries come to, as a patch's length; those without a length count for nothing.
[[nodiscard]] double read_of(const Line& line, std::size_t to);
[[nodiscard]] double read_of(const Line& line);

// Whether the sections make a Repeat: two at least, neighbours of different colours.
[[nodiscard]] bool closes(const Circle& circle);
// Whether they come to the same, within twice what both scatter, wherever they begin.
[[nodiscard]] bool same_sections(const Circle& a, const Circle& b);
// Lengths must be known.
[[nodiscard]] Yarn yarn_of(const Circle& circle, const Lore& lore, double ball_plus_minus);

}  // namespace ballchange::measuring
