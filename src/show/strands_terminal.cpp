#include "show/strands_terminal.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "show/yarn_row.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kSide = 5;   // "old  "
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

// The scale and what the signs mean that are seen in both rows; a second line where one is too short.
std::string legend(const Axis& axis, const std::vector<Column>& both, const Row& drawn,
                   const std::vector<std::string>& letters, const Screen& screen, Told told) {
  const Length step = scale_step(Length::cm(axis.per_column()), told);
  const auto wide = static_cast<std::size_t>(std::lround(step.cm() / axis.per_column()));
  std::string lines;
  std::string line = "|" + std::string(std::max<std::size_t>(wide, 2) - 1, '-') + "| " + section_length(step, told);
  const auto say = [&](const std::string& part) {
    if (display_width(line) + 3 + display_width(part) <= axis.width()) {
      line += "   " + part;
    } else {
      lines += std::string(kSide, ' ') + line + "\n";
      line = part;
    }
  };
  const auto add = [&](Fill fill, std::string_view sign, std::string_view word) {
    const std::string_view glyph = sign.substr(0, sign.size() / 3);
    for (std::size_t i = 0; i < both.size(); ++i) {
      if (both[i].fill == fill && drawn[i].glyph == glyph) return say(fmt::format("{} {}", sign, word));
    }
  };
  add(Fill::cut_off, "///", "cut off");
  add(Fill::overlap, "###", "overlap");
  add(Fill::foretold, screen.utf8 ? "···" : "...", "not measured");
  if (axis.breaks()) say(break_sign(screen.utf8) + " left out, not measured");
  for (const std::string& letter : letters) say(letter);
  return lines + std::string(kSide, ' ') + line + "\n";
}

bool cuts(const StrandPicture& strand, Told told) { return !is_nothing(strand.cut - strand.loose_end, told); }

}  // namespace

std::string strands_text(const StrandsScene& scene, const Screen& screen, Told told) {
  if (screen.columns < kLeastColumns) return {};
  const Axis axis(scene, std::min(screen.columns, kMostColumns) - kSide);
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
  NamesShown names(scene.colours);
  Row drawn = yarn_row(old_columns, scene.colours, screen, names);
  out += beside("old", drawn, screen.depth);
  Row new_row = yarn_row(new_columns, scene.colours, screen, names);
  if (axis.breaks()) write_break(new_row, axis.break_at(), screen.utf8);
  out += beside("new", new_row, screen.depth);
  out += beside("", below, Depth::none);
  old_columns.insert(old_columns.end(), new_columns.begin(), new_columns.end());
  drawn.insert(drawn.end(), new_row.begin(), new_row.end());
  return out + legend(axis, old_columns, drawn, letters_meant(scene.colours, names), screen, told);
}

}  // namespace ballchange
