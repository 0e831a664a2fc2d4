#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/text.hpp"
#include "paper/lettering.hpp"
#include "paper/repeat.hpp"

namespace ballchange {
namespace {

constexpr double kOuter = 42, kInner = 33;              // mm, of the ring
constexpr double kLargeOuter = 52, kLargeInner = 41.5;  // with no words beside it
constexpr double kSmallLetters = 2.4;
constexpr double kElbow = 7;        // from the ring to where a line to a name turns level
constexpr double kToNames = 11;     // from the ring to the names
constexpr double kAlikeStep = 3.6;  // from one inner arc to the next
constexpr double kCell = 2.4;
constexpr std::size_t kOneLine = 44;  // so many sections have room for a line beside the ring

struct Point {
  double x = 0, y = 0;
};

// A name beside the ring.
struct Beside {
  std::size_t part = 0;
  double angle = 0;  // turns from the top, clockwise
  double y = 0;
};

struct AlikeMark {
  Point at;
  std::string mark;
};

struct Box {
  double left, top, right, bottom;
  [[nodiscard]] bool meets(const Box& b) const {
    return left < b.right && b.left < right && top < b.bottom && b.top < bottom;
  }
};

class Ring {
 public:
  Ring(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words, Sheet most)
      : drawing_(drawing), scene_(scene), words_(words), inks_(inks(scene.colours)), width_(most.width) {
    lines_ = scene.parts.size() <= kNamedBeside ? 2 : 1;
    named_ = scene.parts.size() <= kOneLine;
    if (!named_) {
      outer_ = kLargeOuter;
      inner_ = kLargeInner;
      letters_ = kSmallLetters;
    }
    for (std::size_t i = 0; i < scene.parts.size() && named_; ++i) {
      const RepeatPart& part = scene.parts[i];
      const double middle = turns(part.from + part.length / 2);
      (middle < 0.5 ? right_ : left_).push_back({i, middle, 0});
    }
    spread(right_);
    spread(left_);
    centre_ = {width_ / 2, std::max(0.0, -highest()) + outer_ + 4};
  }

  Sheet draw(double x, double y) {
    define_fills(drawing_, inks_, {kCell, kCell});
    drawing_.open(fmt::format("transform=\"translate({} {})\"", mm(x), mm(y)));
    for (const RepeatPart& part : scene_.parts) section(part);
    ticks();
    for (const auto* side : {&right_, &left_}) {
      for (const Beside& name : *side) beside(name, side == &right_);
    }
    alike();
    middle();
    pointers();
    // Over the pointers, which show on both sides of them.
    for (const RepeatPart& part : scene_.parts) letter(part);
    for (const AlikeMark& mark : marks_) {
      drawing_.rect(mark.at.x - 1.3, mark.at.y - 1.7, 2.6, 3.4, "fill=\"#fff\"");
      drawing_.text(mark.at.x, mark.at.y + kSink * kLetters, mark.mark, "text-anchor=\"middle\"");
    }
    const double foot = centre_.y + std::max(outer_ + 4, lowest()) + 2;
    drawing_.text(0, foot + kLetters, fmt::format("{}, clockwise from the top; a tick every {}.", words_.total, step_),
                  "");
    const double end = repeat_legend(drawing_, scene_, words_, inks_, foot + kLine + 0.4, width_);
    drawing_.close();
    return {width_, end};
  }

 private:
  [[nodiscard]] double turns(Length place) const { return place / scene_.total; }
  [[nodiscard]] Point at(double turn, double radius) const {
    const double angle = 2 * std::numbers::pi * turn;
    return {centre_.x + radius * std::sin(angle), centre_.y - radius * std::cos(angle)};
  }
  static std::string to(Point p) { return fmt::format("{} {}", mm(p.x), mm(p.y)); }
  [[nodiscard]] std::string arc(double from, double to_turn, double radius) const {
    return fmt::format("M{}A{} {} 0 {} 1 {}", to(at(from, radius)), mm(radius), mm(radius),
                       to_turn - from > 0.5 ? 1 : 0, to(at(to_turn, radius)));
  }

  [[nodiscard]] double tall() const { return kLine * lines_ + 1; }

  // Names of one side near their sections, none over another: pushed down from the top, then up from the bottom.
  // Heights from the ring's middle.
  void spread(std::vector<Beside>& side) const {
    for (Beside& name : side) name.y = -(outer_ + kElbow) * std::cos(2 * std::numbers::pi * name.angle);
    std::sort(side.begin(), side.end(), [](const Beside& a, const Beside& b) { return a.y < b.y; });
    const double half = std::max(outer_ + kElbow + tall() / 2, tall() * double(side.size()) / 2);
    double free = -half;
    for (Beside& name : side) {
      name.y = std::max(name.y, free + tall() / 2);
      free = name.y + tall() / 2;
    }
    free = half;
    for (auto name = side.rbegin(); name != side.rend(); ++name) {
      name->y = std::min(name->y, free - tall() / 2);
      free = name->y - tall() / 2;
    }
  }
  [[nodiscard]] double highest() const {
    double top = -outer_;
    for (const auto* side : {&right_, &left_}) {
      if (!side->empty()) top = std::min(top, side->front().y - tall() / 2);
    }
    return top + outer_;
  }
  [[nodiscard]] double lowest() const {
    double foot = outer_;
    for (const auto* side : {&right_, &left_}) {
      if (!side->empty()) foot = std::max(foot, side->back().y + tall() / 2);
    }
    return foot;
  }

  [[nodiscard]] std::string sector(double from, double end) const {
    const int large = end - from > 0.5 ? 1 : 0;
    return fmt::format("M{}A{} {} 0 {} 1 {}L{}A{} {} 0 {} 0 {}z", to(at(from, outer_)), mm(outer_), mm(outer_), large,
                       to(at(end, outer_)), to(at(end, inner_)), mm(inner_), mm(inner_), large, to(at(from, inner_)));
  }

  void section(const RepeatPart& part) {
    const double from = turns(part.from), end = turns(part.from + part.length);
    drawing_.path(sector(from, end), fmt::format("fill=\"{}\" stroke=\"currentColor\" stroke-width=\".25\"",
                                                 drawing_.url(fill_name(part.colour))));
  }

  void letter(const RepeatPart& part) {
    const double from = turns(part.from), end = turns(part.from + part.length);
    const double along = (end - from) * 2 * std::numbers::pi * (outer_ + inner_) / 2;
    const Ink& ink = inks_[part.colour];
    const double wide = written_width(ink.letter, letters_), size = letters_ / kLetters;
    if (along < wide + 1.6 * size * size) return;
    const Point middle = at((from + end) / 2, (outer_ + inner_) / 2);
    const Sheet plate{std::max(wide + 0.6, 3.6 * size * size), 4 * size};
    drawing_.rect(middle.x - plate.width / 2, middle.y - plate.height / 2, plate.width, plate.height,
                  fmt::format("rx=\".8\" fill=\"{}\"", hex(ink.shade)));
    drawing_.text(
        middle.x, middle.y + kSink * letters_, ink.letter,
        fmt::format("font-size=\"{}\" fill=\"{}\" text-anchor=\"middle\"", mm(letters_), letters_on(ink.shade)));
  }

  // A tape around it: a tick each step, a longer one where a section begins.
  void ticks() {
    static constexpr std::array<double, 8> kSteps{1, 2, 5, 10, 20, 50, 100, 500};
    const double unit = words_.told == Told::inches ? 2.54 : 1;
    double step = kSteps.back() * unit;
    for (const double s : kSteps) {
      if (scene_.total.cm() / (s * unit) > 120) continue;
      step = s * unit;
      break;
    }
    step_ = tape(Length::cm(step), words_.told);
    std::string d;
    for (double place = 0; place < scene_.total.cm(); place += step) {
      const double turn = turns(Length::cm(place));
      d += fmt::format("M{}L{}", to(at(turn, outer_ + 0.8)), to(at(turn, outer_ + 1.8)));
    }
    drawing_.path(d, "fill=\"none\" stroke=\"currentColor\" stroke-width=\".2\"");
    d.clear();
    for (const RepeatPart& part : scene_.parts) {
      d += fmt::format("M{}L{}", to(at(turns(part.from), outer_)), to(at(turns(part.from), outer_ + 3)));
    }
    drawing_.path(d, "fill=\"none\" stroke=\"currentColor\" stroke-width=\".35\"");
  }

  void beside(const Beside& name, bool right) {
    const double out = right ? 1 : -1;
    const double x = centre_.x + out * (outer_ + kToNames), y = centre_.y + name.y;
    drawing_.path(fmt::format("M{}L{}L{} {}H{}", to(at(name.angle, outer_ + 2)), to(at(name.angle, outer_ + kElbow)),
                              mm(x - out * 3), mm(y), mm(x - out)),
                  "fill=\"none\" stroke=\"currentColor\" stroke-width=\".2\"");
    const double room = right ? width_ - x : x;
    const std::string& length = words_.lengths[name.part];
    const std::string from = "from " + words_.starts[name.part];
    const std::string_view anchor = right ? "" : " text-anchor=\"end\"";
    const std::string colour = printable(scene_.colours[scene_.parts[name.part].colour].name, 60);
    const std::string first = cut_short(colour, room - written_width(length) - 3) + " " + length;
    const double middle = y + kSink * kLetters;
    // Where it begins stands in the table below.
    if (lines_ == 1) return drawing_.text(x, middle, first, anchor.empty() ? "" : anchor.substr(1));
    drawing_.text(x, middle - kLine / 2, first, fmt::format("font-weight=\"bold\"{}", anchor));
    drawing_.text(x, middle + kLine / 2, from, anchor.empty() ? "" : anchor.substr(1));
  }

  [[nodiscard]] std::size_t kinds() const { return std::min(scene_.alike.size(), kAlikeDrawn); }

  // Each kind on a circle of its own, its mark in the middle of each stretch.
  void alike() {
    for (std::size_t i = 0; i < kinds(); ++i) {
      const double radius = inner_ - 4.5 - kAlikeStep * double(i);
      for (const RepeatSpan& span : scene_.alike[i].spans) {
        const double from = turns(span.from) + 0.002, end = std::min(turns(span.to) - 0.002, from + 0.998);
        const double gap = 2.2 / (2 * std::numbers::pi * radius), middle = (from + end) / 2;
        std::string d = fmt::format("M{}L{}M{}L{}", to(at(from, radius - 1)), to(at(from, radius + 1)),
                                    to(at(end, radius - 1)), to(at(end, radius + 1)));
        if (end - from > 2 * gap) d += arc(from, middle - gap, radius) + arc(middle + gap, end, radius);
        drawing_.path(d, "fill=\"none\" stroke=\"currentColor\" stroke-width=\".6\"");
        marks_.push_back({at(middle, radius), alike_mark(i)});
      }
    }
  }

  // Which way it is read.
  void middle() {
    const double radius = 6;
    const Point tip = at(0.25, radius);
    drawing_.path(arc(0.75, 1.25, radius), "fill=\"none\" stroke=\"currentColor\" stroke-width=\".4\"");
    drawing_.path(fmt::format("M{}l-1-1.8h2z", to(tip)), "");
    taken_.push_back({centre_.x - radius - 1, centre_.y - radius - 1, centre_.x + radius + 1, centre_.y + 2});
  }

  // The likeliest last, so that it lies on top.
  void pointers() {
    const std::size_t count = std::min(scene_.pointers.size(), kPointersDrawn);
    for (std::size_t i = 0; i < count; ++i) chance(i);
    for (std::size_t i = count; i-- > 0;) pointer(i);
  }

  void chance(std::size_t i) {
    const double half = written_width(words_.chances[i]) / 2, turn = turns(scene_.pointers[i].place);
    double radius = inner_ - 6 - kAlikeStep * double(kinds()) - half * std::abs(std::sin(2 * std::numbers::pi * turn));
    // Where there is no room for it the words below the ring tell it.
    for (; radius > 2; radius -= 2) {
      const Point p = at(turn, radius);
      const Box box{p.x - half, p.y - kLine / 2, p.x + half, p.y + kLine / 2};
      const auto meets = [&](const Box& other) { return box.meets(other); };
      if (std::any_of(taken_.begin(), taken_.end(), meets)) continue;
      taken_.push_back(box);
      drawing_.text(p.x, p.y + kSink * kLetters, words_.chances[i],
                    fmt::format("text-anchor=\"middle\"{}", i == 0 ? " font-weight=\"bold\"" : ""));
      stems_.push_back(radius + kLine / 2 + (half - kLine / 2) * std::abs(std::sin(2 * std::numbers::pi * turn)));
      return;
    }
    stems_.push_back(inner_ - 6);
  }

  void pointer(std::size_t i) {
    const RepeatPointer& pointer = scene_.pointers[i];
    // Paler towards the middle where that is likelier: so far off it may be.
    for (const double share : {1.0, 0.7, 0.4}) {
      if (pointer.evenly && share < 1) break;
      const double half = turns(pointer.within.to - pointer.within.from) / 2 * share;
      const double middle = turns(pointer.within.from + (pointer.within.to - pointer.within.from) / 2);
      drawing_.path(sector(middle - half, middle + std::min(half, 0.4999)), "fill=\"#fff\" fill-opacity=\".28\"");
    }
    const double turn = turns(pointer.place);
    const bool best = i == 0;
    const std::string across = fmt::format("M{}L{}", to(at(turn, inner_)), to(at(turn, outer_)));
    drawing_.path(across, fmt::format("fill=\"none\" stroke=\"#fff\" stroke-width=\"{}\"", best ? "1.5" : ".9"));
    drawing_.path(across, fmt::format("fill=\"none\" stroke=\"#000\" stroke-width=\"{}\"{}", best ? ".7" : ".35",
                                      best ? "" : " stroke-dasharray=\"1.2 .8\""));
    drawing_.path(fmt::format("M{}L{}", to(at(turn, inner_)), to(at(turn, stems_[i]))),
                  fmt::format("fill=\"none\" stroke=\"currentColor\" stroke-width=\"{}\"", best ? ".7" : ".3"));
    const Point tip = at(turn, inner_), a = at(turn - 0.007, inner_ - 3), b = at(turn + 0.007, inner_ - 3);
    drawing_.path(fmt::format("M{}L{}L{}z", to(tip), to(a), to(b)), "");
  }

  Drawing& drawing_;
  const RepeatScene& scene_;
  const RepeatOnPaper& words_;
  std::vector<Ink> inks_;
  double width_;
  double outer_ = kOuter, inner_ = kInner, letters_ = kLetters;
  int lines_ = 2;
  bool named_ = true;
  std::vector<Beside> right_, left_;  // from the top
  Point centre_;
  std::string step_;
  std::vector<AlikeMark> marks_;
  std::vector<Box> taken_;     // inside the ring
  std::vector<double> stems_;  // of each pointer, how far inward it reaches
};

}  // namespace

Sheet draw_repeat_ring(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words, double x, double y,
                       Sheet most) {
  return Ring(drawing, scene, words, most).draw(x, y);
}

}  // namespace ballchange
