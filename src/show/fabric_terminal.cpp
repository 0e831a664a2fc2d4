#include "show/fabric_terminal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "base/text.hpp"
#include "picture/inks.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kLeast = 40, kMost = 120;  // columns a picture takes
constexpr std::size_t kMostLines = 60;
constexpr std::size_t kBalls = 8, kRow = 5;          // columns at the left: "B       120 "
constexpr std::size_t kJoins = 14, kMostJoins = 24;  // at the right: " < C +3 cm"
constexpr std::size_t kSign = 3;                     // " < "
constexpr std::size_t kLeastAcross = 10;             // columns the piece keeps whatever stands beside it
constexpr std::string_view kAlsoDone = ", done";
constexpr std::size_t kLetterAcross = 16, kLetterDown = 4;  // cells from letter to letter among blocks

Shade dimmed(Shade shade) {
  const auto half = [](std::uint8_t channel) { return static_cast<std::uint8_t>(channel * 0.4 + 0x80 * 0.6); };
  return {half(shade.red), half(shade.green), half(shade.blue)};
}

class FabricLines {
 public:
  FabricLines(const FabricScene& scene, const Screen& screen)
      : scene_(scene), screen_(screen), colours_(scene), inks_(inks(scene.colours)) {
    if (!scene.balls.empty()) left_ += kBalls;
    fit(scene.joins.empty() && !done_shows() ? 0 : kJoins);
    // In a narrower picture with fewer lines more may share one, and want more room.
    const std::size_t most = std::min(kMostJoins, std::min(screen.columns, kMost) - left_ - kLeastAcross);
    while (joins_ > 0 && joins_ < most && longest_label() + kSign > joins_) {
      fit(std::min(longest_label() + kSign, most));
    }
  }

  std::string take() {
    std::string out;
    std::vector<Row> lines;
    for (std::size_t line = 0; line < lines_; ++line) lines.push_back(fabric_line(line));
    if (blocks()) letters(lines);
    if (scene_.foundation) lines.push_back(foundation_line());
    margins(lines);
    for (const Row& line : lines) out += painted(line, screen_.depth);
    return out + legend();
  }

 private:
  // With so many columns at the right for joins.
  void fit(std::size_t joins) {
    joins_ = joins;
    columns_ = std::min(screen_.columns, kMost) - left_ - joins_;
    // A cell is about twice as tall as wide.
    const double tall = rows_height() / scene_.width();
    lines_ = std::max<std::size_t>(1, std::size_t(std::lround(double(columns_) * tall / 2)));
    if (lines_ > kMostLines) {
      columns_ = std::max<std::size_t>(4, std::size_t(std::lround(double(columns_) * kMostLines / double(lines_))));
      lines_ = kMostLines;
    }
  }

  [[nodiscard]] Length rows_height() const { return scene_.rows * scene_.row_height; }
  [[nodiscard]] Length cell_height() const { return rows_height() / double(lines_); }
  // The row that stands for a part of a line, the `part`-th of so many.
  [[nodiscard]] int row_at(std::size_t line, std::size_t part, std::size_t parts) const {
    const Length y = (double(line) + (double(part) + 0.5) / double(parts)) * cell_height();
    const int row = scene_.rows - static_cast<int>(std::floor(y / scene_.row_height));
    // Rows that go to and fro show different colours: where some are passed over, both kinds still take turns.
    const bool all = cell_height() / double(parts) <= scene_.row_height;
    if (all || scene_.working == Working::rounds || (std::size_t(row) + line * parts + part) % 2 == 0) return row;
    return row < scene_.rows ? row + 1 : row - 1;
  }
  [[nodiscard]] double stitches_done(std::size_t column, int row) const {
    const double across = (double(column) + 0.5) / double(columns_) * scene_.stitches;
    return runs_leftward(scene_, row) ? scene_.stitches - across : across;
  }
  [[nodiscard]] bool worked(const OnRow& place) const {
    if (!scene_.done) return true;
    return place.row != scene_.done->row ? place.row < scene_.done->row : place.done < scene_.done->done;
  }
  // That of the row, or the next one below it; of the foundation, the lowest.
  [[nodiscard]] std::size_t line_of(const OnRow& place) const {
    const std::size_t parts = blocks() ? 2 : 1;
    for (std::size_t line = 0; line < lines_; ++line) {
      if (row_at(line, 0, parts) <= place.row) return line;
    }
    return lines_ - 1;
  }

  struct Part {
    ColourId colour = 0;
    bool done = true;
  };
  [[nodiscard]] std::optional<Part> part_at(std::size_t column, std::size_t line, std::size_t part,
                                            std::size_t parts) const {
    const int row = row_at(line, part, parts);
    const OnRow place{row, stitches_done(column, row)};
    const auto colour = colours_.at(place);
    return colour ? std::optional(Part{*colour, worked(place)}) : std::nullopt;
  }
  [[nodiscard]] Shade shade(const Part& part) const {
    const Shade shade = inks_[part.colour].shade;
    return part.done ? shade : dimmed(shade);
  }

  Row fabric_line(std::size_t line) const {
    Row row(left_ + columns_ + std::max(joins_, kJoins));
    for (std::size_t i = 0; i < columns_; ++i) {
      Cell& cell = row[left_ + i];
      if (blocks()) {
        const auto upper = part_at(i, line, 0, 2), lower = part_at(i, line, 1, 2);
        if (!upper || !lower) continue;
        cell.ground = shade(*lower);
        cell.ink = shade(*upper);
        cell.glyph = cell.ink == cell.ground ? " " : "\u2580";
      } else if (const auto here = part_at(i, line, 0, 1)) {
        show(cell, *here);
      }
    }
    return row;
  }
  // Here and there those of a block's two colours: what is seen must not hang on colours alone.
  void letters(std::vector<Row>& lines) const {
    for (std::size_t line = std::min(kLetterDown, lines_) / 2; line < lines_; line += kLetterDown) {
      for (std::size_t i = std::min(kLetterAcross, columns_) / 2; i + 1 < columns_; i += kLetterAcross) {
        for (std::size_t part = 0; part < 2; ++part) {
          const auto here = part_at(i, line, part, 2);
          if (here) lines[line][left_ + i + part] = {inks_[here->colour].letter.substr(0, 1), shade(*here), {}};
        }
      }
    }
  }

  Row foundation_line() const {
    Row row(left_ + columns_ + std::max(joins_, kJoins));
    for (std::size_t i = 0; i < columns_; ++i) {
      const auto colour = colours_.at({0, stitches_done(i, 0)});
      if (colour) show(row[left_ + i], {*colour, worked({0, 0})});
    }
    return row;
  }
  void show(Cell& cell, const Part& part) const {
    cell.glyph = part.done ? inks_[part.colour].letter : fold_case(inks_[part.colour].letter);
    if (cell.glyph.size() > 1) cell.glyph.resize(1);
    if (screen_.depth != Depth::none) cell.ground = shade(part);
  }

  // Two rows of the picture to a line.
  [[nodiscard]] bool blocks() const { return screen_.depth != Depth::none && screen_.utf8; }

  [[nodiscard]] bool done_shows() const { return scene_.done && scene_.done->row > 0; }
  [[nodiscard]] std::size_t longest_label() const {
    std::size_t longest = 0;
    for (const auto& [line, label] : labels(kMostJoins - kSign)) longest = std::max(longest, display_width(label));
    return longest;
  }
  // Of joins and what is done, by line: several may share one.
  [[nodiscard]] std::map<std::size_t, std::string> labels(std::size_t room) const {
    std::map<std::size_t, std::vector<const JoinMark*>> marks;
    for (const JoinMark& join : scene_.joins) marks[line_of(join.at)].push_back(&join);
    std::optional<std::size_t> done;
    if (done_shows() && scene_.done->row < scene_.rows) done = line_of(*scene_.done);
    std::map<std::size_t, std::string> labels;
    for (const auto& [line, here] : marks) {
      labels[line] = joins_label(here, done == line ? room - kAlsoDone.size() : room);
    }
    if (done) {
      std::string& label = labels[*done];
      label = label.empty() ? "done" : label + std::string(kAlsoDone);
    }
    return labels;
  }
  // Names are cut where that is needed, not what a join is out of step.
  static std::string joins_label(const std::vector<const JoinMark*>& joins, std::size_t room) {
    constexpr std::size_t side_by_side = 3;  // more have no room for their names
    std::string counted = fmt::format("{} joins", joins.size());
    if (joins.size() > side_by_side) return counted;
    const std::size_t each = (room - 2 * (joins.size() - 1)) / joins.size();
    std::vector<std::string> words;
    for (const JoinMark* join : joins) {
      const std::size_t shift = join->shift.empty() ? 0 : display_width(join->shift) + 1;
      JoinMark cut = *join;
      const std::size_t least = std::min<std::size_t>(2, display_width(cut.name));
      if (each >= shift + least) {
        cut.name = printable(cut.name, each - shift);
      } else {
        cut.name = shift == 0 ? printable(cut.name, 1) : std::string();
      }
      words.push_back(cut.label());
    }
    const std::string label = fmt::format("{}", fmt::join(words, ", "));
    return joins.size() == 1 || display_width(label) <= room ? label : counted;
  }

  void margins(std::vector<Row>& lines) const {
    for (std::size_t line = 0; line < lines_; ++line) {
      if ((lines_ - 1 - line) % 4 != 0) continue;
      const std::string row = std::to_string(row_at(line, 0, blocks() ? 2 : 1));
      write(lines[line], left_ - 1 - row.size(), row, row.size());
    }
    std::map<std::size_t, std::string> balls;
    for (const BallMark& ball : scene_.balls) {
      std::string& label = balls[line_of(ball.from)];
      if (!ball.label.empty()) label += (label.empty() ? "" : ", ") + ball.label;
    }
    for (const auto& [line, label] : balls) write(lines[line], 0, printable(label, kBalls - 1), kBalls - 1);
    const std::size_t right = left_ + columns_;
    if (joins_ == 0) return;
    for (const auto& [line, label] : labels(joins_ - kSign)) {
      write(lines[line], right, " < ", kSign);
      write(lines[line], right + kSign, label, joins_ - kSign);
    }
  }

  [[nodiscard]] std::string legend() const {
    std::string out;
    Row line(std::min(screen_.columns, kMost));
    std::size_t at = 0;
    for (std::size_t i = 0; i < inks_.size(); ++i) {
      const std::string name = printable(scene_.colours[i].name, 24);
      const std::size_t wide = 4 + display_width(name) + 2;
      if (at > 0 && at + wide > line.size()) {
        out += painted(line, screen_.depth);
        line = Row(line.size());
        at = 0;
      }
      write(line, at + 1, inks_[i].letter, 2);
      if (screen_.depth != Depth::none) {
        for (std::size_t k = 0; k < 3; ++k) line[at + k].ground = inks_[i].shade;
      }
      write(line, at + 4, name, std::min(display_width(name), line.size() - at - 4));
      at += wide;
    }
    out += painted(line, screen_.depth);
    if (!scene_.all_done()) {
      out += screen_.depth == Depth::none ? "Small letters: not worked yet.\n" : "Dull: not worked yet.\n";
    }
    for (const std::string& sign : signs()) out += wrapped(sign, screen_.text_columns());
    return out;
  }

  [[nodiscard]] std::vector<std::string> signs() const {
    std::vector<std::string> signs;
    const double shown = cell_height() / scene_.row_height / (blocks() ? 2 : 1);
    if (shown > 1.5) {
      signs.push_back(fmt::format("Not every {0} is shown: about one in {1:.0f}.", row_word(scene_.working), shown));
    }
    if (scene_.foundation) signs.emplace_back("The lowest line is the foundation.");
    if (scene_.left_handed) {
      signs.push_back(fmt::format("Worked left-handed: {} 1 runs from left to right.", row_word(scene_.working)));
    }
    const auto is_out = [](const JoinMark& join) { return !join.shift.empty(); };
    if (std::any_of(scene_.joins.begin(), scene_.joins.end(), is_out)) {
      signs.emplace_back("+: skipped, -: repeated, so far a join is out of step.");
    }
    return signs;
  }

  const FabricScene& scene_;
  const Screen& screen_;
  FabricColours colours_;
  std::vector<Ink> inks_;
  std::size_t left_ = kRow;  // columns before the picture
  std::size_t columns_ = 0, joins_ = 0, lines_ = 0;
};

}  // namespace

std::string fabric_text(const FabricScene& scene, const Screen& screen) {
  if (screen.columns < kLeast) return {};
  return FabricLines(scene, screen).take();
}

}  // namespace ballchange
