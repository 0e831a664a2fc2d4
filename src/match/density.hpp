#pragma once
#include "match/model.hpp"

// What one written entry says about the sections read under it, for every stretch at once.
namespace ballchange::matching {

// An entry with its length and the variance the tape adds; `known` false when the length was left out.
struct Measured {
  ColourId colour = 0;
  bool known = false;
  double length = 0;    // cm
  double variance = 0;  // cm^2: tape and rounding
};

// Sections read as one: total mean and variance at f = 1.
struct Block {
  double mean = 0;
  double variance = 0;
};

// Normal density of `y` for a whole block.
void whole_density(const Measured& y, const Block& block, const Model& model, Stretched& out);
// Chance that the block is at least `y` long.
void at_least(const Measured& y, const Block& block, const Model& model, Stretched& out);
// Density of `y` from a loose end anywhere in a section of `cut`, over `others`, to the change: (1/fR) (P(N <= y) - P(N
// + L <= y)).
void from_loose_end(const Measured& y, const Block& others, const Block& cut, bool any_others, const Model& model,
                    Stretched& out);

// How far y is from what the block can be at any stretch, in standard deviations; 0 inside. Unknown lengths: 0.
[[nodiscard]] double misfit(const Measured& y, const Block& block, const Model& model);
// Largest value the density can take.
[[nodiscard]] double peak_density(const Measured& y, double block_variance);

}  // namespace ballchange::matching
