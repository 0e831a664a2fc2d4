#pragma once
#include <cstddef>
#include <vector>

#include "yarn/yarn.hpp"

// Sections that a whole overlap fits into, by the rule of thumb of the craft: used on the old end + left on the new one
// - allowance = the whole section. Model: DEVELOPERS.md, "The join", whole lengths only.
namespace ballchange {

// How far from that section's changes an overlap should stay: 3 cm (2 st), and twice its plus-minus.
[[nodiscard]] Length clear_of_changes(const Section& section, const Habits& habits);

struct LongSection {
  std::size_t section = 0;  // of the repeat
  Length whole, allowance;
  Length least, most;  // used on the old end, from the section's start up to the cut, with the whole overlap inside

  // On the new end, from the cut to the section's end.
  [[nodiscard]] Length leave(Length used) const { return whole + allowance - used; }
};
// In the order of the repeat, which runs as the work does; allowance >= 0: asserted.
[[nodiscard]] std::vector<LongSection> long_sections(const Repeat& repeat, Length allowance, const Habits& habits);

}  // namespace ballchange
