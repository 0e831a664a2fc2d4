#include "paper/strip.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "base/text.hpp"
#include "paper/drawing.hpp"

namespace ballchange {
namespace {

// mm of paper. At most 170 wide: what A4 and Letter hold between their margins.
constexpr double kLeft = 8, kRight = 9, kBand = 3.6, kAbove = 5, kBelow = 5.4, kStub = 4;
constexpr double kBetween = 2;  // so that no number is taken for one of the length above
constexpr double kEach = kAbove + kBand + kBelow + kBetween;
constexpr double kInch = 25.4;
constexpr double kNumber = 2.4;  // letters
constexpr double kHair = 1e-6;

struct Scale {
  double length, tick, number;  // mm: of paper a piece, between ticks, between numbers
  double unit;                  // mm in what is written
};
Scale scale_of(Told told) {
  if (told == Told::inches) return {6 * kInch, kInch / 4, kInch, kInch};
  return {150, 10, 50, 10};
}

double mm_of(Length length) { return length.cm() * 10; }

std::size_t lengths_of(double all, const Scale& scale) {
  return static_cast<std::size_t>(std::max(1.0, std::ceil(all / scale.length - kHair)));
}

class Strip {
 public:
  Strip(Drawing& drawing, const CardShown& shown, const LongSection& section, Told told)
      : drawing_(drawing),
        shown_(shown),
        section_(section),
        scale_(scale_of(told)),
        inks_(inks(shown.repeat.colours())),
        whole_(mm_of(section.whole)),
        used_("used on the old"),
        leave_("leave on the new") {
    const double to = std::min(whole_, scale_.length);
    used_.left = 4;
    used_.own_row = written_width(used_.words) + 8 > std::min(to, scale_.number);
    leave_.own_row = true;
    const double room = written_width(leave_.words);
    for (double at = std::fmod(whole_, scale_.number) - scale_.number; at < to && leave_.own_row; at += scale_.number) {
      leave_.left = std::max(at + 4, 0.0);
      leave_.own_row = leave_.left + room + 4 > std::min(at + scale_.number, to);
    }
    for (Caption* caption : {&used_, &leave_}) {
      if (caption->own_row) caption->left = 0;
    }
  }

  Sheet draw(Told told) {
    define_fills(drawing_, inks_, {kBand, kBand});
    const std::size_t count = lengths_of(whole_, scale_);
    for (std::size_t i = 0; i < count; ++i) length(i, count);
    double y = top_of(count) - kBetween;
    const double bar = mm_of(shown_.allowance);
    const std::size_t bars = lengths_of(bar, scale_);
    for (std::size_t i = 0; i < bars; ++i, y += 5) {
      const double from = static_cast<double>(i) * scale_.length;
      const double wide = std::min(scale_.length, bar - from);
      drawing_.path(fmt::format("M{0} {1}v3M{0} {2}h{3}M{4} {1}v3", mm(kLeft), mm(y + 0.5), mm(y + 2), mm(wide),
                                mm(kLeft + wide)),
                    "class=\"overlap\" fill=\"none\" stroke=\"currentColor\" stroke-width=\".6\"");
      if (i + 1 < bars) continue;
      const bool beside = wide < 90;
      if (!beside) y += 4;
      drawing_.text(kLeft + (beside ? wide + 2 : 0), y + 3,
                    fmt::format("the overlap, {}{}", tape(shown_.allowance, told),
                                bars > 1 ? ", its lengths one after the other" : ""),
                    "font-size=\"3\"");
    }
    return {kLeft + scale_.length + kRight, y};
  }

 private:
  // What a scale is called: between its first numbers where they leave room, otherwise beyond them.
  struct Caption {
    explicit Caption(std::string_view said) : words(said) {}
    std::string_view words;
    double left = 0;  // from the beginning of the length
    bool own_row = false;
  };
  static constexpr double kCaption = 3;

  // Where a length begins; the first one bears the captions.
  [[nodiscard]] double top_of(std::size_t index) const {
    const double captions = (used_.own_row ? kCaption : 0) + (index > 0 && leave_.own_row ? kCaption : 0);
    return static_cast<double>(index) * kEach + captions;
  }

  [[nodiscard]] std::string fill(std::size_t section) const {
    const std::size_t k = section % shown_.repeat.size();
    return drawing_.url(fmt::format("fill-{}", shown_.repeat.sections()[k].colour));
  }

  void length(std::size_t index, std::size_t count) {
    const double from = static_cast<double>(index) * scale_.length;
    const double to = std::min(whole_, from + scale_.length);
    const double y = top_of(index) + kAbove;
    const std::size_t before = section_.section + shown_.repeat.size() - 1;
    const double end = kLeft + (to - from);
    if (index == 0) band(kLeft - kStub, y, kStub, before);
    band(kLeft, y, to - from, section_.section);
    if (index + 1 == count) band(end, y, kStub, section_.section + 1);
    const Ink& ink = inks_[shown_.repeat.sections()[section_.section].colour];
    drawing_.text(kLeft + 2, y + kBand - 0.9, card_colour(shown_, section_),
                  fmt::format("font-size=\"2.8\" fill=\"{}\" stroke=\"{}\" stroke-width=\".7\" paint-order=\"stroke\"",
                              letters_on(ink.shade), hex(ink.shade)));
    if (count > 1)
      drawing_.text(0, y + kBand - 0.4, fmt::format("{}", index + 1), "font-size=\"3.4\" font-weight=\"bold\"");
    if (index + 1 < count) {
      drawing_.text(end + 1, y + kBand - 0.8, fmt::format("\u2192 {}", index + 2), "font-size=\"3\"");
    }
    ruler(from, to, y, true);
    ruler(from, to, y, false);
    allowed(from, to, y);
    if (index > 0) return;
    drawing_.text(kLeft + used_.left, above(y) - (used_.own_row ? kCaption : 0), used_.words, bold());
    drawing_.text(kLeft + leave_.left, below(y) + (leave_.own_row ? kCaption : 0), leave_.words, small());
  }

  // What the numbers of a band that begins at y stand on.
  [[nodiscard]] static double above(double y) { return y - 2.6; }
  [[nodiscard]] static double below(double y) { return y + kBand + 2.4 + 0.75 * kNumber; }
  [[nodiscard]] static std::string small() { return fmt::format("font-size=\"{}\"", mm(kNumber)); }
  // What is used is bold, as in the tables.
  [[nodiscard]] static std::string bold() { return small() + " font-weight=\"bold\""; }
  [[nodiscard]] static double written_width(std::string_view words) {
    return 0.6 * kNumber * static_cast<double>(words.size());
  }

  void band(double x, double y, double wide, std::size_t section) {
    drawing_.rect(x, y, wide, kBand,
                  fmt::format("fill=\"{}\" stroke=\"currentColor\" stroke-width=\".15\"", fill(section)));
  }

  // Of that stretch of the section, counted from its start (above) or from its end (below).
  void ruler(double from, double to, double y, bool used) {
    const auto place = [&](double counted) { return kLeft + (used ? counted : whole_ - counted) - from; };
    const double least = used ? from : whole_ - to, most = used ? to : whole_ - from;
    std::string ticks;
    for (double k = std::max(0.0, std::ceil(least / scale_.tick - kHair)); k * scale_.tick <= most + kHair; ++k) {
      const double counted = k * scale_.tick;
      const double numbers = counted / scale_.number;
      const bool numbered = std::abs(numbers - std::round(numbers)) < kHair;
      const double tall = numbered ? 2.2 : 1.2;
      ticks += fmt::format("M{} {}v{}", mm(place(counted)), mm(used ? y - tall : y + kBand), mm(tall));
      if (!numbered) continue;
      drawing_.text(place(counted), used ? above(y) : below(y), fmt::format("{:.0f}", counted / scale_.unit),
                    (used ? bold() : small()) + " text-anchor=\"middle\"");
    }
    drawing_.path(ticks, fmt::format("class=\"{}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\".2\"",
                                     used ? "used" : "leave"));
  }

  // A thick line where the old end may be cut, and one where the new one then is.
  void allowed(double from, double to, double y) {
    const double allowance = mm_of(shown_.allowance);
    const auto thick = [&](double least, double most, double at) {
      least = std::max(least, from);
      most = std::min(most, to);
      if (least >= most) return;
      drawing_.line(kLeft + least - from, at, kLeft + most - from, at, "stroke=\"currentColor\" stroke-width=\".7\"");
    };
    thick(mm_of(section_.least), mm_of(section_.most), y - 0.35);
    thick(mm_of(section_.least) - allowance, mm_of(section_.most) - allowance, y + kBand + 0.35);
  }

  Drawing& drawing_;
  const CardShown& shown_;
  const LongSection& section_;
  Scale scale_;
  std::vector<Ink> inks_;
  double whole_;  // mm
  Caption used_, leave_;
};

}  // namespace

std::size_t strip_lengths(const LongSection& section, Told told) {
  return lengths_of(mm_of(section.whole), scale_of(told));
}

std::string strip_svg(const CardShown& shown, const LongSection& section, Told told) {
  assert(told != Told::stitches);
  const std::size_t count = strip_lengths(section, told);
  const std::string name = card_colour(shown, section);
  Drawing drawing(
      fmt::format("strip-{}", section.section), fmt::format("Strip of {}, {}", name, tape(section.whole, told)),
      fmt::format("A ruler at full size{}: above it counts from where {} begins, below from where it ends. Below it a "
                  "bar as long as the overlap.",
                  count > 1 ? fmt::format(", in {} lengths below each other", count) : "", name));
  const Sheet sheet = Strip(drawing, shown, section, told).draw(told);
  return drawing.inline_svg(sheet);
}

std::string check_line_svg(Told told) {
  const bool inches = told == Told::inches;
  const double wide = inches ? 4 * kInch : 100;
  const std::string_view said = inches ? "4 in" : "10 cm";
  Drawing drawing("check-line", fmt::format("A line of {}", said), "To be measured once it is printed.");
  drawing.path(fmt::format("M1 1v4M1 3h{0}M{1} 1v4", mm(wide), mm(wide + 1)),
               "id=\"check-line\" fill=\"none\" stroke=\"currentColor\" stroke-width=\".3\"");
  drawing.text(wide + 4, 4.2, fmt::format("must be {}", said), "font-size=\"3.4\"");
  return drawing.inline_svg({wide + 40, 6});
}

}  // namespace ballchange
