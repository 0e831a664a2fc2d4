#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/shade.hpp"

// Colour on a terminal. Blocks carry their own letters, black or white by contrast, so that they read on light and
// dark.
namespace ballchange {

enum class Depth { none, colours_256, truecolour };

// What there is to write on.
struct Screen {
  std::size_t columns = 80;
  Depth depth = Depth::none;
  bool utf8 = true;

  // Longer lines than these are hard to read; a picture may be wider.
  [[nodiscard]] std::size_t text_columns() const { return columns < 120 ? columns : 120; }
};

// A picture says nothing in fewer columns, and is drawn in no more.
inline constexpr std::size_t kLeastColumns = 40, kMostColumns = 120;

// One column of a line. A wide character leaves the cell after it without a glyph.
struct Cell {
  std::string glyph = " ";
  std::optional<Shade> ground = {};  // the colour of the yarn here
  std::optional<Shade> ink = {};     // of the glyph, on a ground; without it black or white
};
using Row = std::vector<Cell>;

// Relative luminance of WCAG 2: 0 black, 1 white.
[[nodiscard]] double luminance(Shade shade);
// Whether white letters are easier to read on it than black ones.
[[nodiscard]] bool wants_white_letters(Shade shade);
// The entry of the 256-colour palette's cube and greys (16 to 255) that looks most like it.
[[nodiscard]] int palette_index(Shade shade);

// Writes printable text from column `at` on, at most `room` columns of it, leaving the grounds as they are; the columns
// written. The row must reach so far: asserted.
std::size_t write(Row& row, std::size_t at, std::string_view text, std::size_t room);

// The row as text with its line end; trailing blanks are dropped.
[[nodiscard]] std::string painted(const Row& row, Depth depth);

}  // namespace ballchange
