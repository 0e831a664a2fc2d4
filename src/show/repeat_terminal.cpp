#include "show/repeat_terminal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "show/yarn_row.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kASection = 8;  // columns, on average, to write its place below
constexpr std::size_t kMostLines = 40;

class RepeatLines {
 public:
  RepeatLines(const RepeatScene& scene, const Screen& screen, Told told)
      : scene_(scene), screen_(screen), told_(told), columns_(std::min(screen.columns, kMostColumns)) {
    const std::size_t in_a_line = std::max<std::size_t>(2, columns_ / kASection);
    lines_ = std::min(kMostLines, (scene.parts.size() + in_a_line - 1) / in_a_line);
    per_column_ = scene.total / double(columns_ * lines_);
  }

  std::string take() {
    std::string out;
    NamesShown names(scene_.colours);
    for (std::size_t line = 0; line < lines_; ++line) {
      out += above(line) + painted(yarn_row(columns_of(line), scene_.colours, screen_, names), screen_.depth);
      out += below(line);
    }
    const std::string letters = fmt::format("{}", fmt::join(letters_meant(scene_.colours, names), ", "));
    return out + scale() + (letters.empty() ? letters : wrapped(letters, screen_.text_columns()));
  }

 private:
  // From the start of the first line, the columns of all of them counted on.
  [[nodiscard]] std::size_t column(Length place) const {
    const auto at = static_cast<std::size_t>(std::lround(std::max(0.0, place / per_column_)));
    return std::min(at, columns_ * lines_ - 1);
  }
  [[nodiscard]] bool on_line(std::size_t line, std::size_t at) const { return at / columns_ == line; }

  [[nodiscard]] std::vector<Column> columns_of(std::size_t line) const {
    std::vector<Column> columns(columns_);
    std::size_t next = 0;
    for (const RepeatPart& part : scene_.parts) {
      const std::size_t from = std::max(column(part.from), next);
      // A splash narrower than a column still shows.
      const bool last = part.section + 1 == scene_.parts.size();
      const std::size_t to = last ? columns_ * lines_ : std::max(column(part.from + part.length), from + 1);
      for (std::size_t i = from; i < std::min(to, columns_ * lines_); ++i) {
        if (on_line(line, i)) columns[i % columns_] = {Fill::seen, part.colour, i == from || i % columns_ == 0};
      }
      next = to;
    }
    return columns;
  }

  static bool is_free(const Row& row, std::size_t at, std::size_t size) {
    if (at + size > row.size()) return false;
    const std::size_t from = at == 0 ? 0 : at - 1, to = std::min(at + size + 1, row.size());
    return std::all_of(row.begin() + std::ptrdiff_t(from), row.begin() + std::ptrdiff_t(to),
                       [](const Cell& cell) { return cell.glyph == " "; });
  }

  // Words beside their column, in the first row where they have room; a row is added where none has.
  void put(std::vector<Row>& rows, std::size_t at, const std::string& words, std::size_t arrow) const {
    const std::size_t wide = display_width(words);
    for (Row& row : rows) {
      for (const std::size_t from : {at, at + arrow >= wide ? at + arrow - wide : columns_}) {
        if (!is_free(row, from, wide)) continue;
        write(row, from, words, wide);
        return;
      }
    }
    rows.emplace_back(columns_);
    const std::size_t from = at + wide <= columns_ ? at : at + arrow - std::min(at + arrow, wide);
    write(rows.back(), std::min(from, columns_ - std::min(wide, columns_)), words, std::min(wide, columns_));
  }

  // Pointers, the likeliest nearest; and the stretch each may lie in.
  [[nodiscard]] std::string above(std::size_t line) const {
    std::vector<Row> chances;
    Row stretch(columns_);
    bool any = false;
    for (std::size_t i = scene_.pointers.size(); i-- > 0;) {
      const RepeatPointer& pointer = scene_.pointers[i];
      for (const RepeatSpan& one : parts_within(pointer.within, scene_.total, Length(), scene_.total)) {
        for (std::size_t at = column(one.from); at <= column(one.to); ++at) {
          if (on_line(line, at)) stretch[at % columns_].glyph = "~";
          any = any || on_line(line, at);
        }
      }
    }
    for (std::size_t i = scene_.pointers.size(); i-- > 0;) {
      const std::size_t at = column(scene_.pointers[i].place);
      if (on_line(line, at)) stretch[at % columns_].glyph = i == 0 ? "V" : "v";
    }
    for (std::size_t i = 0; i < scene_.pointers.size(); ++i) {
      const std::size_t at = column(scene_.pointers[i].place);
      if (on_line(line, at)) put(chances, at % columns_, percent(scene_.pointers[i].probability), 1);
    }
    std::string out;
    for (std::size_t i = chances.size(); i-- > 0;) out += painted(chances[i], Depth::none);
    return any ? out + painted(stretch, Depth::none) : out;
  }

  [[nodiscard]] std::string below(std::size_t line) const {
    std::vector<Row> places;
    for (const RepeatPart& part : scene_.parts) {
      const std::size_t at = column(part.from);
      if (on_line(line, at)) put(places, at % columns_, section_length(part.from, told_), 1);
    }
    std::string out;
    for (const Row& row : places) out += painted(row, Depth::none);
    return out;
  }

  [[nodiscard]] std::string scale() const {
    const Length step = scale_step(per_column_, told_);
    const auto wide = static_cast<std::size_t>(std::lround(step / per_column_));
    std::string line = "|" + std::string(std::max<std::size_t>(wide, 2) - 1, '-') + "| " + section_length(step, told_);
    if (!scene_.pointers.empty()) line += "   V likeliest   ~ so far off it may be";
    return line.size() <= columns_ ? line + "\n" : line.substr(0, line.find("   ")) + "\n";
  }

  const RepeatScene& scene_;
  const Screen& screen_;
  Told told_;
  std::size_t columns_, lines_ = 1;
  Length per_column_;
};

}  // namespace

std::string repeat_text(const RepeatScene& scene, const Screen& screen, Told told) {
  if (screen.columns < kLeastColumns) return {};
  return RepeatLines(scene, screen, told).take();
}

}  // namespace ballchange
