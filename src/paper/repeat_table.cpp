#include <fmt/core.h>

#include <algorithm>

#include "base/text.hpp"
#include "paper/lettering.hpp"
#include "paper/repeat.hpp"

namespace ballchange {
namespace {

constexpr double kSmall = kTableLetters, kRow = 3;  // mm: letters, from one section to the next
constexpr double kSwatch = 4.4, kToWords = 5.2;
constexpr std::size_t kFewestColumns = 3, kMostColumnsAbreast = 5, kMostRows = 40;
constexpr double kLeastName = 6, kUsualName = 12;  // letters of a name

class Table {
 public:
  Table(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words, const std::vector<Ink>& inks,
        double width)
      : drawing_(drawing), scene_(scene), words_(words), inks_(inks) {
    const std::size_t count = scene.parts.size();
    double whole = 0, most = 0;  // with names of a usual length, without names
    for (std::size_t i = 0; i < count; ++i) {
      const double numbers = width_of(start(i)) + width_of(length(i));
      most = std::max(most, numbers);
      whole = std::max(whole, numbers + std::min(kUsualName * width_of("x"), width_of(name(i))));
    }
    std::size_t columns = std::max(kFewestColumns, (count + kMostRows - 1) / kMostRows);
    while (columns < kMostColumnsAbreast && width / double(columns + 1) - kToWords - 1 >= whole) ++columns;
    rows_ = (count + columns - 1) / columns;
    wide_ = width / double(columns);
    lengths_ = wide_ - kToWords - 1 >= std::min(whole, most + kLeastName * width_of("x"));
  }

  double draw(double y) {
    drawing_.text(0, y + kLetters,
                  lengths_ ? "Each section: where it begins, its colour, how long it is."
                           : "Each section: where it begins, and its colour.",
                  "");
    y += kLine + 0.6;
    for (std::size_t i = 0; i < scene_.parts.size(); ++i) {
      const std::size_t column = i / rows_;
      entry(i, double(column) * wide_, y + double(i % rows_) * kRow);
    }
    return y + double(rows_) * kRow;
  }

 private:
  static double width_of(std::string_view words) { return written_width(words, kSmall); }
  [[nodiscard]] std::string start(std::size_t i) const { return words_.starts[i] + ": "; }
  [[nodiscard]] std::string name(std::size_t i) const {
    return printable(scene_.colours[scene_.parts[i].colour].name, 60);
  }
  [[nodiscard]] std::string length(std::size_t i) const { return ", " + words_.lengths[i]; }

  void entry(std::size_t i, double x, double y) {
    const std::size_t colour = scene_.parts[i].colour;
    const Ink& ink = inks_[colour];
    drawing_.rect(
        x, y + 0.1, kSwatch, kRow - 0.2,
        fmt::format("fill=\"{}\" stroke=\"currentColor\" stroke-width=\".15\"", drawing_.url(fill_name(colour))));
    const double plate = std::min(kSwatch - 0.4, width_of(ink.letter) + 0.6);
    drawing_.rect(x + (kSwatch - plate) / 2, y + 0.3, plate, kRow - 0.6, fmt::format("fill=\"{}\"", hex(ink.shade)));
    const double foot = y + kRow / 2 + kSink * kSmall;
    const auto size = fmt::format("font-size=\"{}\"", mm(kSmall));
    drawing_.text(x + kSwatch / 2, foot, ink.letter,
                  fmt::format("{} fill=\"{}\" text-anchor=\"middle\"", size, letters_on(ink.shade)));
    const std::string last = lengths_ ? length(i) : std::string();
    const double room = wide_ - kToWords - 1 - width_of(start(i)) - width_of(last);
    drawing_.text(x + kToWords, foot, start(i) + cut_short(name(i), room, kSmall) + last, size);
  }

  Drawing& drawing_;
  const RepeatScene& scene_;
  const RepeatOnPaper& words_;
  const std::vector<Ink>& inks_;
  std::size_t rows_ = 1;
  double wide_ = 0;
  bool lengths_ = true;
};

}  // namespace

double section_table(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words,
                     const std::vector<Ink>& inks, double y, double width) {
  return Table(drawing, scene, words, inks, width).draw(y);
}

}  // namespace ballchange
