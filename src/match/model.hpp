#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "match/place.hpp"

// The yarn as the matcher sees it: one side per direction, every chance worked out beforehand.
// Assumptions: sections are independent and normal, one stretch per ball, a section is overlooked with a chance that
// depends on its length only, a colour is misnamed independently each time. Not modelled: a ball dyed with another
// repeat, colours that fade into each other over more than a few centimetres (the tape's error stands for that).
namespace ballchange::matching {

// One ball stretches or shrinks the whole repeat by f = 1 + ball_plus_minus z; z = -5, -4.75, ..., 5.
inline constexpr std::size_t stretches = 41;
using Stretched = std::array<double, stretches>;
inline constexpr double stretch_z(std::size_t i) { return -5.0 + 0.25 * static_cast<double>(i); }

// The sections in one direction's working order.
struct Side {
  Direction direction = Direction::forward;
  std::vector<double> mean, variance, starts;  // cm, cm^2, cm
  std::vector<double> overlooked;              // q_k
  std::vector<ColourId> colour;
  std::size_t colours = 0;
  std::vector<double> name, first, rest;  // [section * colours + written]: w; (1-q) w; q + (1-q) w
  std::vector<double> before;             // chance that the nearest section seen before this one is written otherwise

  [[nodiscard]] std::size_t size() const { return mean.size(); }
  [[nodiscard]] std::size_t at(std::size_t section, ColourId written) const { return section * colours + written; }
  [[nodiscard]] std::size_t next(std::size_t section) const { return section + 1 == size() ? 0 : section + 1; }
  [[nodiscard]] std::size_t previous(std::size_t section) const { return section == 0 ? size() - 1 : section - 1; }
};

struct Model {
  explicit Model(const Yarn& yarn);

  std::array<Side, 2> sides;  // forward, backward
  double total = 0;           // R, cm
  double ball_plus_minus = 0;
  Stretched factor{};  // f
  Stretched weight{};  // its chance
  bool directionless = false;
  Length repeat_total;
  Length period;               // after which the sections come again: the repeat, or a shorter one it hides
  std::optional<Length> axis;  // of a repeat that mirrors itself within the noise
  Length margin;               // places this close to each other come to the same

  // Chance that a ball runs backward: 0.02 when worked from the usual end of a mill-wound ball, 0.98 from its other
  // end, 0.5 for a ball wound by hand; 0 when nothing tells the directions apart.
  [[nodiscard]] double chance(Direction direction, const MatchOptions& options) const;
  [[nodiscard]] const Side& side(Direction direction) const { return sides[direction == Direction::backward ? 1 : 0]; }
};

// Chance that a section of that mean length is passed over.
[[nodiscard]] double overlook_chance(Length mean, Length short_section);
// w(c, c'): chance of writing c' for c, over the colours of a repeat; row-major [c * colours + c'].
[[nodiscard]] std::vector<double> naming_chances(const std::vector<Colour>& colours);

}  // namespace ballchange::matching
