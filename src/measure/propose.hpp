#pragma once
#include <vector>

#include "measure/circle.hpp"

// Circles that a strand may have been read from.
namespace ballchange::measuring {

struct Proposal {
  Circle circle;
  double score = 0;  // as of Folded
};

// The longest circle looked for.
inline constexpr std::size_t most_sections = 200;

// From every stretch of the line that begins a few entries in and ends where the colours may begin again: the circle
// with all that any pass shows, passed over in another or not. Best first, at most `most` of them.
[[nodiscard]] std::vector<Proposal> propose(const Line& line, const Lore& lore, std::size_t most);

// One section as it was read once.
[[nodiscard]] Patch patch_of(const matching::Measured& entry);

}  // namespace ballchange::measuring
