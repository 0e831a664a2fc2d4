#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "paper/lettering.hpp"
#include "paper/notes.hpp"
#include "paper/repeat.hpp"

namespace ballchange {
namespace {

constexpr double kBand = 9;
constexpr double kCell = 2.4;
constexpr std::size_t kSectionsALine = 10;
constexpr std::size_t kMostLines = 8;
constexpr double kAlikeRow = 4;
constexpr double kBetween = 5, kClose = 3;  // lines of the bar, a few or many

class Bar {
 public:
  Bar(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words, Sheet most)
      : drawing_(drawing), scene_(scene), words_(words), inks_(inks(scene.colours)), width_(most.width) {
    lines_ = std::min(kMostLines, (scene.parts.size() + kSectionsALine - 1) / kSectionsALine);
    line_length_ = scene.total / double(lines_);
    per_cm_ = width_ / line_length_.cm();
  }

  Sheet draw(double x, double y) {
    define_fills(drawing_, inks_, {kCell, kCell});
    drawing_.open(fmt::format("transform=\"translate({} {})\"", mm(x), mm(y)));
    double foot = 0;
    for (std::size_t line = 0; line < lines_; ++line) foot = draw_line(line, foot) + (lines_ > 4 ? kClose : kBetween);
    const double scale = scale_bar(drawing_, 0, foot, per_cm_, words_.told, width_ / 4);
    drawing_.text(scale + 6, foot + kSink * kLetters, words_.total + ", from left to right", "");
    const double end = repeat_legend(drawing_, scene_, words_, inks_, foot + kLine, width_, kinds());
    drawing_.close();
    return {width_, end};
  }

 private:
  // A line for each below each line of the bar.
  [[nodiscard]] std::size_t kinds() const { return lines_ > 4 ? 2 : kAlikeDrawn; }
  [[nodiscard]] Length low(std::size_t line) const { return double(line) * line_length_; }
  [[nodiscard]] double at(std::size_t line, Length place) const { return (place - low(line)).cm() * per_cm_; }
  [[nodiscard]] std::vector<RepeatSpan> parts_on(std::size_t line, const RepeatSpan& span) const {
    return parts_within(span, scene_.total, low(line), low(line) + line_length_);
  }
  [[nodiscard]] bool on_line(std::size_t line, Length place) const {
    return place >= low(line) && (place < low(line) + line_length_ || line + 1 == lines_);
  }

  // Returns where it ends.
  double draw_line(std::size_t line, double top) {
    const std::vector<PlacedNote> chances = placed_notes(chances_on(line), width_);
    const double band = top + kLine * double(rows_of(chances)) + (chances.empty() ? 0 : 3.2);
    for (const RepeatPart& part : scene_.parts) section(line, part, band);
    drawing_.rect(0, band, width_, kBand, "fill=\"none\" stroke=\"currentColor\" stroke-width=\".3\"");
    for (std::size_t i = std::min(scene_.pointers.size(), kPointersDrawn); i-- > 0;) pointer(line, i, band);
    // Over the pointers, which show above and below them.
    for (const RepeatPart& part : scene_.parts) written(line, part, band);
    draw_notes(drawing_, chances, band - 2.6, 0.6, -1);
    std::vector<PlacedNote> places = placed_notes(places_on(line), width_);
    // In many lines a page can't hold them, and the table tells.
    const std::size_t rows = lines_ > 4 ? 0 : lines_ > 1 ? 6 : 12;
    places.erase(
        std::remove_if(places.begin(), places.end(), [rows](const PlacedNote& note) { return note.row >= rows; }),
        places.end());
    draw_notes(drawing_, places, band + kBand, 0.6, 1);
    double foot = band + kBand + kLine * double(rows_of(places)) + 1.6;
    for (std::size_t i = 0; i < std::min(scene_.alike.size(), kinds()); ++i) {
      if (alike(line, i, foot)) foot += kAlikeRow;
    }
    return foot;
  }

  [[nodiscard]] std::vector<PointNote> chances_on(std::size_t line) const {
    std::vector<PointNote> notes;
    for (std::size_t i = 0; i < std::min(scene_.pointers.size(), kPointersDrawn); ++i) {
      const Length place = scene_.pointers[i].place;
      if (on_line(line, place)) notes.push_back({at(line, place), words_.chances[i], i == 0});
    }
    return notes;
  }

  // Where each section begins; its name and its length as well where it has no room for them. Long words last, so
  // furthest: the poles of the others need not pass them.
  [[nodiscard]] std::vector<PointNote> places_on(std::size_t line) const {
    std::vector<PointNote> notes, named;
    for (std::size_t i = scene_.parts.size(); i-- > 0;) {
      const RepeatPart& part = scene_.parts[i];
      if (!on_line(line, part.from)) continue;
      const double x = at(line, part.from);
      if (scene_.parts.size() > kNamedBeside || fits(line, part, with_length(part)) || fits_in_two(line, part)) {
        notes.push_back({x, words_.starts[i], false, words_.starts[i]});
      } else if (fits(line, part, name(part))) {
        notes.push_back({x, fmt::format("{}: {}", words_.starts[i], words_.lengths[i]), false, words_.starts[i]});
      } else {
        named.push_back(
            {x, fmt::format("{}: {}", words_.starts[i], with_length(part)), false, words_.starts[i], name(part)});
      }
    }
    notes.insert(notes.end(), named.begin(), named.end());
    return notes;
  }

  [[nodiscard]] std::string name(const RepeatPart& part) const {
    return printable(scene_.colours[part.colour].name, 24);
  }
  [[nodiscard]] double widest(std::size_t line, const RepeatPart& part) const {
    double wide = 0;
    for (const RepeatSpan& one : parts_on(line, {part.from, part.from + part.length})) {
      wide = std::max(wide, (one.to - one.from).cm() * per_cm_);
    }
    return wide;
  }
  [[nodiscard]] std::string with_length(const RepeatPart& part) const {
    return name(part) + " " + words_.lengths[part.section];
  }
  [[nodiscard]] bool fits(std::size_t line, const RepeatPart& part, const std::string& words) const {
    return written_width(words) + 2.4 <= widest(line, part);
  }

  // The length below the name.
  [[nodiscard]] bool fits_in_two(std::size_t line, const RepeatPart& part) const {
    return fits(line, part, name(part)) && fits(line, part, words_.lengths[part.section]);
  }

  void section(std::size_t line, const RepeatPart& part, double band) {
    for (const RepeatSpan& one : parts_on(line, {part.from, part.from + part.length})) {
      const double from = at(line, one.from), wide = (one.to - one.from).cm() * per_cm_;
      drawing_.rect(
          from, band, wide, kBand,
          fmt::format("fill=\"{}\" stroke=\"currentColor\" stroke-width=\".2\"", drawing_.url(fill_name(part.colour))));
    }
  }

  void written(std::size_t line, const RepeatPart& part, double band) {
    for (const RepeatSpan& one : parts_on(line, {part.from, part.from + part.length})) {
      const double from = at(line, one.from), wide = (one.to - one.from).cm() * per_cm_;
      const Ink& ink = inks_[part.colour];
      const double middle = from + wide / 2;
      const auto has_room = [wide](const std::string& words) { return written_width(words) + 2.4 <= wide; };
      const std::string& length = words_.lengths[part.section];
      if (has_room(with_length(part))) {
        on_plate(middle, band + kBand / 2, with_length(part), ink);
      } else if (has_room(name(part)) && has_room(length)) {
        on_plate(middle, band + kBand / 4 + 0.1, name(part), ink);
        on_plate(middle, band + 3 * kBand / 4 - 0.1, length, ink);
      } else if (has_room(name(part))) {
        on_plate(middle, band + kBand / 2, name(part), ink);
      } else if (written_width(ink.letter) + 1 <= wide) {
        on_plate(middle, band + kBand / 2, ink.letter, ink);
      }
    }
  }
  void on_plate(double x, double y, const std::string& words, const Ink& ink) {
    const double plate = written_width(words) + 0.8;
    drawing_.rect(x - plate / 2, y - 2.1, plate, 4.2, fmt::format("rx=\".8\" fill=\"{}\"", hex(ink.shade)));
    drawing_.text(x, y + kSink * kLetters, words,
                  fmt::format("fill=\"{}\" text-anchor=\"middle\"", letters_on(ink.shade)));
  }

  // Paler towards the middle where that is likelier: so far off it may be.
  void pointer(std::size_t line, std::size_t i, double band) {
    const RepeatPointer& pointer = scene_.pointers[i];
    const Length half = (pointer.within.to - pointer.within.from) / 2, middle = pointer.within.from + half;
    for (const double share : {1.0, 0.7, 0.4}) {
      if (pointer.evenly && share < 1) break;
      RepeatSpan span{middle - half * share, middle + half * share};
      if (span.from >= scene_.total) span = {span.from - scene_.total, span.to - scene_.total};
      for (const RepeatSpan& one : parts_on(line, span)) {
        drawing_.rect(at(line, one.from), band, (one.to - one.from).cm() * per_cm_, kBand,
                      "fill=\"#fff\" fill-opacity=\".28\"");
      }
    }
    if (!on_line(line, pointer.place)) return;
    const double x = at(line, pointer.place);
    const bool best = i == 0;
    drawing_.line(x, band, x, band + kBand, fmt::format("stroke=\"#fff\" stroke-width=\"{}\"", best ? "1.5" : ".9"));
    drawing_.line(x, band, x, band + kBand,
                  fmt::format("stroke=\"#000\" stroke-width=\"{}\"{}", best ? ".7" : ".35",
                              best ? "" : " stroke-dasharray=\"1.2 .8\""));
    drawing_.path(fmt::format("M{} {}l-1-2.6h2z", mm(x), mm(band)), "");
  }

  // Whether any of that kind lies on this line.
  bool alike(std::size_t line, std::size_t i, double y) {
    bool any = false;
    const std::string mark = alike_mark(i);
    for (const RepeatSpan& span : scene_.alike[i].spans) {
      for (const RepeatSpan& one : parts_on(line, span)) {
        any = true;
        const double from = at(line, one.from) + 0.3, to = at(line, one.to) - 0.3, middle = (from + to) / 2;
        std::string d = fmt::format("M{0} {1}v-1.4M{2} {1}v-1.4", mm(from), mm(y + 1.6), mm(to));
        if (to - from > 5) {
          d += fmt::format("M{0} {1}H{2}M{3} {1}H{4}", mm(from), mm(y + 1.6), mm(middle - 2), mm(middle + 2), mm(to));
        }
        drawing_.path(d, "fill=\"none\" stroke=\"currentColor\" stroke-width=\".5\"");
        drawing_.text(middle, y + 1.6 + kSink * kLetters, mark, "text-anchor=\"middle\"");
      }
    }
    return any;
  }

  Drawing& drawing_;
  const RepeatScene& scene_;
  const RepeatOnPaper& words_;
  std::vector<Ink> inks_;
  double width_, per_cm_ = 1;
  std::size_t lines_ = 1;
  Length line_length_;
};

}  // namespace

Sheet draw_repeat_bar(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words, double x, double y,
                      Sheet most) {
  return Bar(drawing, scene, words, most).draw(x, y);
}

}  // namespace ballchange
