#include "show/fabric_terminal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "picture/inks.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kLeast = 40, kMost = 120;  // columns a picture takes
constexpr std::size_t kMostLines = 60;
constexpr std::size_t kBall = 8, kRow = 5;  // columns at the left: "B       120 "
constexpr std::size_t kJoin = 14;           // at the right: " < C +3 cm"

Shade dimmed(Shade shade) {
  const auto half = [](std::uint8_t channel) { return static_cast<std::uint8_t>(channel * 0.4 + 0x80 * 0.6); };
  return {half(shade.red), half(shade.green), half(shade.blue)};
}

class FabricLines {
 public:
  FabricLines(const FabricScene& scene, const Screen& screen)
      : scene_(scene), screen_(screen), colours_(scene), inks_(inks(scene.colours)) {
    columns_ = std::min(screen.columns, kMost) - kBall - kRow - kJoin;
    // A cell is about twice as tall as wide.
    const double tall = scene.height() / scene.width();
    lines_ = std::max<std::size_t>(1, std::size_t(std::lround(double(columns_) * tall / 2)));
    if (lines_ > kMostLines) {
      columns_ = std::max<std::size_t>(4, std::size_t(std::lround(double(columns_) * kMostLines / double(lines_))));
      lines_ = kMostLines;
    }
  }

  std::string take() {
    std::string out;
    std::vector<Row> lines;
    for (std::size_t line = 0; line < lines_; ++line) lines.push_back(fabric_line(line));
    margins(lines);
    for (const Row& line : lines) out += painted(line, screen_.depth);
    return out + legend();
  }

 private:
  [[nodiscard]] Length cell_height() const { return scene_.height() / double(lines_); }
  // The row that stands for a part of a line, the `part`-th of so many.
  [[nodiscard]] int row_at(std::size_t line, std::size_t part, std::size_t parts) const {
    const Length y = (double(line) + (double(part) + 0.5) / double(parts)) * cell_height();
    const Length rows = scene_.rows * scene_.row_height;
    if (y >= rows) return 0;
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
  [[nodiscard]] std::size_t line_of(const OnRow& place) const {
    const SheetBox box = on_sheet(scene_, {place.row, place.done, place.done});
    return std::min(lines_ - 1, std::size_t((box.y + box.height / 2) / cell_height()));
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
    Row row(kBall + kRow + columns_ + kJoin);
    for (std::size_t i = 0; i < columns_; ++i) {
      Cell& cell = row[kBall + kRow + i];
      if (blocks()) {
        const auto upper = part_at(i, line, 0, 2), lower = part_at(i, line, 1, 2);
        if (!upper || !lower) continue;
        cell.ground = shade(*lower);
        cell.ink = shade(*upper);
        cell.glyph = cell.ink == cell.ground ? " " : "\u2580";
      } else if (const auto here = part_at(i, line, 0, 1)) {
        cell.glyph = here->done ? inks_[here->colour].letter : fold_case(inks_[here->colour].letter);
        if (cell.glyph.size() > 1) cell.glyph.resize(1);
        if (screen_.depth != Depth::none) cell.ground = shade(*here);
      }
    }
    return row;
  }
  // Two rows of the picture to a line.
  [[nodiscard]] bool blocks() const { return screen_.depth != Depth::none && screen_.utf8; }

  void margins(std::vector<Row>& lines) const {
    for (std::size_t line = 0; line < lines_; ++line) {
      if ((lines_ - 1 - line) % 4 != 0) continue;
      const std::string row = std::to_string(row_at(line, 0, blocks() ? 2 : 1));
      if (row != "0") write(lines[line], kBall + kRow - 1 - row.size(), row, row.size());
    }
    for (const BallMark& ball : scene_.balls) {
      write(lines[line_of(ball.from)], 0, printable(ball.label, kBall - 1), kBall - 1);
    }
    const std::size_t right = kBall + kRow + columns_;
    for (const JoinMark& join : scene_.joins) {
      Row& line = lines[line_of(join.at)];
      write(line, right, " < ", 3);
      write(line, right + 3, printable(join.label, kJoin - 3), kJoin - 3);
    }
    if (scene_.done && scene_.done->row > 0 && scene_.done->row < scene_.rows) {
      Row& line = lines[line_of(*scene_.done)];
      if (line[right + 1].glyph == " ") write(line, right, " < done", 7);
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
    return out;
  }

  const FabricScene& scene_;
  const Screen& screen_;
  FabricColours colours_;
  std::vector<Ink> inks_;
  std::size_t columns_ = 0, lines_ = 0;
};

}  // namespace

std::string fabric_text(const FabricScene& scene, const Screen& screen) {
  if (screen.columns < kLeast) return {};
  return FabricLines(scene, screen).take();
}

}  // namespace ballchange
