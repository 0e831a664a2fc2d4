#pragma once
#include "base/length.hpp"

// How much must leave the work for two given ends, and what shift that leaves: lengths on the repeat, R = period.
namespace ballchange::joining {

// What rounding may leave and no tape can tell.
inline constexpr Length hardly = Length::cm(1e-6);

struct Gap {
  Length period;   // R
  Length between;  // V = p_e - p_s mod R: trims and allowance together, up to whole repeats
};

struct Limits {
  Length tolerance;    // what one join may be off
  Length out_of_step;  // d; 0 when each join stands by itself
  bool sparing = false;

  // One join's shift, and with it the running one, stay within the tolerance.
  [[nodiscard]] bool allow(Length shift) const;
};

struct Target {
  Length trims;  // x + y
  Length shift;  // + skipped, - repeated
};

// The rule: the least trims that give the shift clamp(-d, -t, t); but where cutting nothing leaves a skip with |shift|
// <= t and |d + shift| <= t, nothing. Sparing: the least trims within both limits.
[[nodiscard]] Target least_trims(const Gap& gap, Length allowance, const Limits& limits);
// The same, but a skip up to `most_skip`, and no more than that out of step with it, is taken as it is.
[[nodiscard]] Target trims_or_skip(const Gap& gap, Length allowance, const Limits& limits, Length most_skip);

}  // namespace ballchange::joining
