#pragma once
#include "base/length.hpp"

// How much must leave the work for two given ends, and what shift that leaves: lengths on the repeat, R = period.
namespace ballchange::joining {

struct Gap {
  Length period;   // R
  Length between;  // V = p_e - p_s mod R: trims and allowance together, up to whole repeats
};

struct Limits {
  Length tolerance;    // what one join may be off
  Length out_of_step;  // d; 0 when each join stands by itself
  bool sparing = false;
};

struct Target {
  Length trims;  // x + y
  Length shift;  // + skipped, - repeated
};

// The rule: the least trims that give the shift clamp(-d, -t, t); but where cutting nothing leaves a skip with |shift|
// <= t and |d + shift| <= t, nothing. Sparing: the least trims within both limits.
[[nodiscard]] Target least_trims(const Gap& gap, Length allowance, const Limits& limits);

}  // namespace ballchange::joining
