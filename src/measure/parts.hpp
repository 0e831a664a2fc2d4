#pragma once
#include <vector>

#include "measure/circle.hpp"

namespace ballchange::measuring {

// Strands that overlap laid together into longer ones, as far as it is plain how: none of them need be a whole repeat.
// Only the longer ones are given.
[[nodiscard]] std::vector<Line> laid_together(std::vector<Line> lines, const Lore& lore);

}  // namespace ballchange::measuring
