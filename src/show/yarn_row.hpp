#pragma once
#include <cstddef>
#include <string>
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

// Which colours stand in rows by their names, and which by their letter (picture/inks.hpp), for want of room.
struct NamesShown {
  explicit NamesShown(const std::vector<Colour>& colours) : named(colours.size()), lettered(colours.size()) {}
  std::vector<bool> named, lettered;
};

// Colours as blocks where the screen has them, otherwise names with a fill of their own each; `shown` is added to.
[[nodiscard]] Row yarn_row(const std::vector<Column>& columns, const std::vector<Colour>& colours, const Screen& screen,
                           NamesShown& shown);

// "S sand", "M moss": what the letters of rows mean.
[[nodiscard]] std::vector<std::string> letters_meant(const std::vector<Colour>& colours, const NamesShown& shown);

// A round length that takes at least eight columns.
[[nodiscard]] Length scale_step(Length per_column, Told told);

}  // namespace ballchange
