#pragma once
#include <cmath>

#include "match/model.hpp"

// What one written entry says about the sections read under it, for every stretch at once.
namespace ballchange::matching {

inline constexpr double finest = 0.01;  // cm: no tape reads better

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

inline constexpr double root_two_pi = 2.5066282746310002;

// How far y is from what the block can be at any stretch, in standard deviations; 0 inside. Unknown lengths: 0.
[[nodiscard]] inline double misfit(const Measured& y, const Block& block, const Model& model) {
  if (!y.known) return 0;
  const double short_by = block.mean * model.factor.front() - y.length;
  const double long_by = y.length - block.mean * model.factor.back();
  const double off = short_by > long_by ? short_by : long_by;
  return off > 0 ? off / std::sqrt(block.variance + y.variance) : 0;
}

// Largest value the density can take.
[[nodiscard]] inline double peak_density(const Measured& y, double block_variance) {
  return y.known ? 1 / (root_two_pi * std::sqrt(block_variance + y.variance)) : 1;
}

}  // namespace ballchange::matching
