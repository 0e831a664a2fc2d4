#pragma once
#include "measure/circle.hpp"

// A total that was told closes the circle: what was not seen of it goes to the section that no strand shows whole. Or
// something else lies there.
namespace ballchange::measuring {

// What the strands show of a section that none of them shows whole, as a patch's lengths.
struct Gap {
  std::size_t section = 0;
  double begun = 0, ended = 0;  // from its start on, and up to its end
};

// Logarithm of how much likelier it is than that one section fills it, that the gap holds two of that colour and
// others between them, of any length and colour. `length`: of the one.
[[nodiscard]] double more_lies_there(const Gap& gap, double length, const Lore& lore);

}  // namespace ballchange::measuring
