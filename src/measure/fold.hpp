#pragma once
#include <cstddef>
#include <vector>

#include "measure/circle.hpp"

// A strand laid round a circle again and again, either of which may show sections the other passed over.
namespace ballchange::measuring {

// Entries that came to be read from sections: one from several, several from one (where the strand the circle was
// taken from had passed some over), or one from one.
struct Block {
  std::size_t entry = 0, entries = 1;
  std::size_t section = 0, sections = 1;
};

struct Folded {
  double score = 0;  // logarithm of how much likelier than entries that have nothing to do with the circle
  std::vector<Block> blocks;
};

// The best way to lay line.entries[from ..] round the circle from the start of its section 0. Given up, with a score
// far below 0, where the entries don't fit.
[[nodiscard]] Folded fold_on(const Circle& circle, const Line& line, std::size_t from, const Lore& lore);

}  // namespace ballchange::measuring
