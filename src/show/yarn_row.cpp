#include "show/yarn_row.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "base/text.hpp"
#include "picture/inks.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kFills = "-=~:+*^_%o";

std::string_view glyph_of(const Column& column, bool has_ground, bool utf8) {
  switch (column.fill) {
    case Fill::bare:
      return " ";
    case Fill::cut_off:
      return "/";
    case Fill::overlap:
      return "#";
    case Fill::foretold:
      return utf8 ? "·" : ".";
    case Fill::seen:
      break;
  }
  return has_ground ? " " : kFills.substr(column.colour % kFills.size(), 1);
}

bool hatched(const Column& column) { return column.fill == Fill::cut_off || column.fill == Fill::overlap; }

// A run under one fill.
struct Room {
  std::size_t at = 0, size = 0;
};
// Where a stretch of one colour has most room for its name. Hatching still shows after the name, and before it where
// the stretch does not begin with it; a block keeps its blanks.
Room roomiest(const std::vector<Column>& columns, std::size_t from, std::size_t to, bool has_ground) {
  Room best;
  for (std::size_t i = from; i < to;) {
    std::size_t stop = i;
    while (stop < to && columns[stop].fill == columns[i].fill) ++stop;
    const std::size_t after = (has_ground ? 1U : 0U) + (hatched(columns[i]) ? 1U : 0U);
    const std::size_t before = (has_ground ? 1U : 0U) + (hatched(columns[i]) && i > from ? 1U : 0U);
    const std::size_t size = stop - i > before + after ? stop - i - before - after : 0;
    if (size > best.size) best = {i + before, size};
    i = stop;
  }
  return best;
}

void write_in(Row& row, Room room, std::string_view text, bool has_ground) {
  const std::size_t wide = display_width(text);
  write(row, room.at, text, wide);
  if (has_ground) row[room.at - 1].glyph = row[room.at + wide].glyph = " ";
}

// A run too short for blanks around a letter: its middle, or what is not hatched of it. A block's letter comes before
// its hatching.
std::optional<std::size_t> bare_middle(const std::vector<Column>& columns, std::size_t from, std::size_t to,
                                       bool has_ground) {
  const auto at = [&](std::size_t i) { return columns.begin() + std::ptrdiff_t(i); };
  const bool hatching = std::any_of(at(from), at(to), hatched);
  if (!hatching) return from + (to - from) / 2;
  if (!has_ground) return std::nullopt;  // without a shade the fill is all that shows
  const auto plain = std::find_if_not(at(from), at(to), hatched);
  return plain != at(to) ? std::size_t(plain - columns.begin()) : from + (to - from - 1) / 2;
}

}  // namespace

Row yarn_row(const std::vector<Column>& columns, const std::vector<Colour>& colours, const Screen& screen,
             NamesShown& shown) {
  Row row(columns.size());
  const std::vector<Ink> letters = inks(colours);
  for (std::size_t from = 0; from < columns.size();) {
    std::size_t to = from + 1;
    if (columns[from].fill == Fill::bare) {
      from = to;
      continue;
    }
    while (to < columns.size() && columns[to].fill != Fill::bare && !columns[to].starts) ++to;
    const Colour& colour = colours[columns[from].colour];
    const bool has_ground = screen.depth != Depth::none && colour.shade.has_value();
    for (std::size_t i = from; i < to; ++i) {
      row[i].glyph = glyph_of(columns[i], has_ground, screen.utf8);
      if (has_ground) row[i].ground = colour.shade;
    }
    const bool bar = !has_ground && columns[from].starts;
    if (bar) row[from].glyph = "|";
    const Room room = roomiest(columns, from + (bar ? 1 : 0), to, has_ground);
    const std::string name = printable(colour.name);
    const std::size_t wide = display_width(name);
    const std::string& letter = letters[columns[from].colour].letter;
    if (wide > 0 && wide <= room.size) {
      write_in(row, room, name, has_ground);
      shown.named[columns[from].colour] = true;
    } else if (letter.size() <= room.size) {
      write_in(row, room, letter, has_ground);
      shown.lettered[columns[from].colour] = true;
    } else if (const auto middle = bare_middle(columns, from, to, has_ground); middle && letter.size() == 1) {
      row[*middle].glyph = letter;
      shown.lettered[columns[from].colour] = true;
    }
    from = to;
  }
  return row;
}

std::vector<std::string> letters_meant(const std::vector<Colour>& colours, const NamesShown& shown) {
  const std::vector<Ink> letters = inks(colours);
  std::vector<std::string> meant;
  for (std::size_t k = 0; k < colours.size(); ++k) {
    if (shown.lettered[k]) meant.push_back(letters[k].letter + " " + printable(colours[k].name, 24));
  }
  return meant;
}

Length scale_step(Length per_column, Told told) {
  static constexpr std::array<double, 14> kMetric{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000};
  static constexpr std::array<double, 13> kInches{1, 2, 4, 6, 12, 24, 36, 72, 180, 360, 720, 1800, 3600};
  const double unit = told == Told::inches ? 2.54 : 1;
  const auto first_of = [&](const auto& steps) {
    for (const double step : steps) {
      if (step * unit >= 8 * per_column.cm()) return Length::cm(step * unit);
    }
    return Length::cm(steps.back() * unit);
  };
  return told == Told::inches ? first_of(kInches) : first_of(kMetric);
}

}  // namespace ballchange
