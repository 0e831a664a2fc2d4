#pragma once
#include <cstddef>
#include <vector>

#include "show/paint.hpp"
#include "show/text.hpp"
#include "yarn/repeat.hpp"

// A stretch of yarn as one line of a screen.
namespace ballchange {

enum class Fill { bare, seen, foretold, overlap, cut_off };

struct Column {
  Fill fill = Fill::bare;
  ColourId colour = 0;
  bool starts = false;  // a change of colour is seen at its left edge
};

// Colours as blocks where the screen has them, otherwise names with a fill of their own each.
[[nodiscard]] Row yarn_row(const std::vector<Column>& columns, const std::vector<Colour>& colours,
                           const Screen& screen);

// A round length that takes at least eight columns.
[[nodiscard]] Length scale_step(Length per_column, Told told);

}  // namespace ballchange
