#pragma once
#include <vector>

#include "measure/circle.hpp"

namespace ballchange::measuring {

// Strands that overlap laid together into longer ones, as far as it is plain how: none of them need be a whole repeat.
// Only the longer ones are given. With `may_turn` some may run the other way than the rest, and each comes both ways
// round.
[[nodiscard]] std::vector<Line> laid_together(std::vector<Line> lines, const Lore& lore, bool may_turn);

}  // namespace ballchange::measuring
