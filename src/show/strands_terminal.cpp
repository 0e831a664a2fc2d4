#include "show/strands_terminal.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kLeast = 40, kMost = 120;  // columns a picture takes
constexpr std::size_t kSide = 5;                 // "old  "
constexpr std::string_view kFills = "-=~:+*^_%o";
constexpr std::size_t kBreak = 9;  // columns of a stretch that is left out: "  <···>  "

// From centimetres to columns.
class Axis {
 public:
  Axis(const StrandsScene& scene, std::size_t width)
      : left_(scene.left), right_(scene.right), width_(width), left_out_(scene.left_out) {
    const Length out = left_out_ ? left_out_->to - left_out_->from : Length();
    per_column_ = (right_ - left_ - out).cm() / double(width - (left_out_ ? kBreak : 0));
  }
  [[nodiscard]] std::size_t column(Length x) const {
    double at = std::round((x - left_).cm() / per_column_);
    if (left_out_ && x >= left_out_->to) {
      at = double(break_at() + kBreak) + std::round((x - left_out_->to).cm() / per_column_);
    } else if (left_out_) {
      at = std::min(at, double(break_at()));
    }
    return static_cast<std::size_t>(std::clamp(at, 0.0, double(width_)));
  }
  [[nodiscard]] bool breaks() const { return left_out_.has_value(); }
  // The first column of the break.
  [[nodiscard]] std::size_t break_at() const {
    return static_cast<std::size_t>(std::max(0.0, std::round((left_out_->from - left_).cm() / per_column_)));
  }
  [[nodiscard]] bool shows(const StrandPart& piece) const { return piece.to > left_ && piece.from < right_; }
  [[nodiscard]] std::size_t width() const { return width_; }
  [[nodiscard]] double per_column() const { return per_column_; }

 private:
  Length left_, right_;
  std::size_t width_;
  std::optional<LeftOut> left_out_;
  double per_column_ = 1;
};

enum class Fill { bare, seen, foretold, overlap, cut_off };

struct Column {
  Fill fill = Fill::bare;
  ColourId colour = 0;
  bool starts = false;  // a change of colour is seen at its left edge
};

std::vector<Column> columns_of(const StrandPicture& strand, const StrandsScene& scene, const Axis& axis) {
  std::vector<Column> columns(axis.width());
  std::size_t next = 0;
  for (const StrandPart& piece : strand.pieces) {
    if (!axis.shows(piece)) continue;
    const std::size_t from = std::max(axis.column(piece.from), next);
    // a splash narrower than a column still shows
    const std::size_t to = std::min(std::max(axis.column(piece.to), from + 1), axis.width());
    for (std::size_t i = from; i < to; ++i) {
      columns[i] = {piece.evidence == Evidence::seen ? Fill::seen : Fill::foretold, piece.colour,
                    i == from && piece.starts_here};
    }
    next = to;
  }
  const std::size_t cut = axis.column(strand.cut);
  const std::size_t overlap_from = axis.column(scene.overlap_from);
  const bool overlaps = scene.overlap_to > scene.overlap_from;
  const std::size_t overlap_to = overlaps ? std::max(axis.column(scene.overlap_to), overlap_from + 1) : overlap_from;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (columns[i].fill == Fill::bare) continue;
    if (strand.end == End::old_end ? i >= cut : i < cut) {
      columns[i].fill = Fill::cut_off;
    } else if (i >= overlap_from && i < overlap_to) {
      columns[i].fill = Fill::overlap;
    }
  }
  return columns;
}

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

// Part of a name would say less than the fill alone.
void write_name(Row& row, Room room, std::string_view name, bool has_ground) {
  const std::size_t wide = display_width(name);
  if (wide == 0 || wide > room.size) return;
  write(row, room.at, name, wide);
  if (has_ground) row[room.at - 1].glyph = row[room.at + wide].glyph = " ";
}

Row strand_row(const std::vector<Column>& columns, const std::vector<Colour>& colours, const Screen& screen) {
  Row row(columns.size());
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
    write_name(row, room, printable(colour.name), has_ground);
    from = to;
  }
  return row;
}

// A pointer and its word, the word to its left where the right edge is near.
void point(Row& row, std::size_t at, std::string_view arrow, std::string_view word) {
  at = std::min(at, row.size() - 1);
  row[at].glyph = arrow;
  if (at + 2 + word.size() <= row.size()) {
    write(row, at + 2, word, word.size());
  } else if (at >= word.size() + 1) {
    write(row, at - word.size() - 1, word, word.size());
  }
}

std::string break_sign(bool utf8) { return utf8 ? "<···>" : "<...>"; }

std::string beside(std::string_view label, const Row& row, Depth depth) {
  std::string side(label);
  side.resize(kSide, ' ');
  const std::string text = painted(row, depth);
  return text == "\n" ? std::string() : side + text;
}

void write_break(Row& row, std::size_t at, bool utf8) {
  const std::string sign = break_sign(utf8);
  if (at + kBreak <= row.size()) write(row, at + (kBreak - display_width(sign)) / 2, sign, kBreak);
}

Length scale_step(double per_column, Told told) {
  static constexpr std::array<double, 10> kMetric{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};
  static constexpr std::array<double, 10> kInches{1, 2, 4, 6, 12, 24, 36, 72, 180, 360};
  const double unit = told == Told::inches ? 2.54 : 1;
  for (const double step : told == Told::inches ? kInches : kMetric) {
    if (step * unit >= 8 * per_column) return Length::cm(step * unit);
  }
  return Length::cm(kMetric.back() * unit);
}

// The scale and what the signs mean; a second line where one is too short.
std::string legend(const Axis& axis, const std::vector<Column>& both, const Screen& screen, Told told) {
  const Length step = scale_step(axis.per_column(), told);
  const auto wide = static_cast<std::size_t>(std::lround(step.cm() / axis.per_column()));
  std::string lines;
  std::string line = "|" + std::string(std::max<std::size_t>(wide, 2) - 1, '-') + "| " + tape(step, told);
  const auto say = [&](std::string_view sign, std::string_view word) {
    const std::string part = std::string(sign) + " " + std::string(word);
    if (display_width(line) + 3 + display_width(part) <= axis.width()) {
      line += "   " + part;
    } else {
      lines += std::string(kSide, ' ') + line + "\n";
      line = part;
    }
  };
  const auto add = [&](Fill fill, std::string_view sign, std::string_view word) {
    const bool used = std::any_of(both.begin(), both.end(), [fill](const Column& c) { return c.fill == fill; });
    if (used) say(sign, word);
  };
  add(Fill::cut_off, "///", "cut off");
  add(Fill::overlap, "###", "overlap");
  add(Fill::foretold, screen.utf8 ? "···" : "...", "not measured");
  if (axis.breaks()) say(break_sign(screen.utf8), "left out, not measured");
  return lines + std::string(kSide, ' ') + line + "\n";
}

bool cuts(const StrandPicture& strand, Told told) { return !is_nothing(strand.cut - strand.loose_end, told); }

}  // namespace

std::string strands_text(const StrandsScene& scene, const Screen& screen, Told told) {
  if (screen.columns < kLeast) return {};
  const Axis axis(scene, std::min(screen.columns, kMost) - kSide);
  std::vector<Column> old_columns = columns_of(scene.old_strand, scene, axis);
  const std::vector<Column> new_columns = columns_of(scene.new_strand, scene, axis);
  Row above(axis.width());
  Row below(axis.width());
  if (scene.old_strand.hook && *scene.old_strand.hook > scene.left) {
    point(above, axis.column(*scene.old_strand.hook), "v", "hook");
  }
  if (cuts(scene.old_strand, told)) point(above, axis.column(scene.old_strand.cut), "v", "cut");
  if (cuts(scene.new_strand, told)) point(below, axis.column(scene.new_strand.cut), "^", "cut");
  if (scene.knot) point(above, axis.column(*scene.knot), "v", "knot");
  std::string out = beside("", above, Depth::none);
  out += beside("old", strand_row(old_columns, scene.colours, screen), screen.depth);
  Row new_row = strand_row(new_columns, scene.colours, screen);
  if (axis.breaks()) write_break(new_row, axis.break_at(), screen.utf8);
  out += beside("new", new_row, screen.depth);
  out += beside("", below, Depth::none);
  old_columns.insert(old_columns.end(), new_columns.begin(), new_columns.end());
  return out + legend(axis, old_columns, screen, told);
}

}  // namespace ballchange
