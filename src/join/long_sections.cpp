#include "join/long_sections.hpp"

#include <algorithm>
#include <cassert>

namespace ballchange {

Length clear_of_changes(const Section& section, const Habits& habits) {
  return std::max(habits.margin, 2 * section.plus_minus);
}

std::vector<LongSection> long_sections(const Repeat& repeat, Length allowance, const Habits& habits) {
  assert(allowance >= Length());
  std::vector<LongSection> found;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const Section& section = repeat.sections()[k];
    const Length clear = clear_of_changes(section, habits);
    const LongSection here{k, section.length, allowance, allowance + clear, section.length - clear};
    if (here.least <= here.most) found.push_back(here);
  }
  return found;
}

}  // namespace ballchange
