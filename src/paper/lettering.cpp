#include "paper/lettering.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr double kPerLetter = 0.62;               // of their size
constexpr double kWider = 0.1, kMuchWider = 0.3;  // capitals, and what is as wide as high, more than that
constexpr std::string_view kWidest = "MW@%";

double entry_width(const Colour& colour) { return 9 + written_width(printable(colour.name, 24)); }

struct LegendLines {
  struct Entry {
    double left = 0, line = 0;
  };
  std::vector<Entry> entries;
  Sheet size;
};

LegendLines legend_lines(const std::vector<Colour>& colours, double room) {
  LegendLines lines{{}, {0, kLine}};
  double at = 0;
  for (const Colour& colour : colours) {
    const double wide = entry_width(colour);
    if (at > 0 && at + wide > room) {
      at = 0;
      lines.size.height += kLine;
    }
    lines.entries.push_back({at, lines.size.height});
    at += wide;
    lines.size.width = std::max(lines.size.width, at);
  }
  return lines;
}

}  // namespace

double written_width(std::string_view words, double letters) {
  double width = kPerLetter * double(display_width(words));
  for (const char c : words) {
    if (kWidest.find(c) != std::string_view::npos) {
      width += kMuchWider;
    } else if (c >= 'A' && c <= 'Z') {
      width += kWider;
    }
  }
  return letters * width;
}

std::string cut_short(std::string_view words, double room, double letters) {
  auto most = std::max<std::size_t>(1, std::size_t(std::max(0.0, room) / (kPerLetter * letters)));
  std::string cut = printable(words, most);
  while (most > 1 && written_width(cut, letters) > room) cut = printable(words, --most);
  return cut;
}

std::vector<std::string> broken(std::string_view words, double room) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t stop = std::min(words.find(' ', at), words.size());
    const std::string word(words.substr(at, stop - at));
    if (!lines.empty() && written_width(lines.back() + " " + word) <= room) {
      lines.back() += " " + word;
    } else if (!word.empty()) {
      lines.push_back(word);
    }
    at = stop + 1;
  }
  return lines;
}

Shade blended(Shade under, Shade over, double share) {
  const auto mix = [share](std::uint8_t a, std::uint8_t b) {
    return static_cast<std::uint8_t>(std::lround(a * (1 - share) + b * share));
  };
  return {mix(under.red, over.red), mix(under.green, over.green), mix(under.blue, over.blue)};
}

Sheet colour_legend(Drawing& drawing, const std::vector<Colour>& colours, const std::vector<Ink>& inks, double x,
                    double y, double room, std::string_view key) {
  const LegendLines lines = legend_lines(colours, room);
  for (std::size_t i = 0; i < colours.size(); ++i) {
    const double left = x + lines.entries[i].left, foot = y + lines.entries[i].line - 1;
    drawing.rect(
        left, foot - kLetters, 5, kLetters + 0.6,
        fmt::format("fill=\"{}\" stroke=\"currentColor\" stroke-width=\".2\"", drawing.url(fill_name(i, key))));
    drawing.rect(left + 1.2, foot - kLetters + 0.4, 2.6, kLetters - 0.2,
                 fmt::format("fill=\"{}\"", hex(inks[i].shade)));
    drawing.text(left + 2.5, foot - 0.1, inks[i].letter,
                 fmt::format("fill=\"{}\" text-anchor=\"middle\"", letters_on(inks[i].shade)));
    drawing.text(left + 6, foot, printable(colours[i].name, 24), "");
  }
  return lines.size;
}

Sheet legend_size(const std::vector<Colour>& colours, double room) { return legend_lines(colours, room).size; }

double scale_bar(Drawing& drawing, double x, double y, double per_cm, Told told, double longest) {
  static constexpr std::array<double, 14> kMetric{0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000};
  static constexpr std::array<double, 13> kInches{0.5, 1, 2, 4, 6, 12, 24, 36, 72, 180, 360, 720, 1800};
  const double unit = told == Told::inches ? 2.54 : 1;
  double length = unit * 0.5;
  const auto longest_of = [&](const auto& steps) {
    for (const double step : steps) {
      if (told == Told::stitches && step < 1) continue;
      if (step * unit * per_cm <= longest) length = step * unit;
    }
  };
  told == Told::inches ? longest_of(kInches) : longest_of(kMetric);
  if (told == Told::stitches) length = std::max(length, 1.0);
  const double wide = length * per_cm;
  drawing.path(fmt::format("M{0} {1}v1.6M{0} {2}h{3}M{4} {1}v1.6", mm(x), mm(y - 0.8), mm(y), mm(wide), mm(x + wide)),
               "fill=\"none\" stroke=\"currentColor\" stroke-width=\".3\"");
  const std::string words = section_length(Length::cm(length), told);
  drawing.text(x + wide + 2, y + kSink * kLetters, words, "");
  return wide + 2 + written_width(words);
}

void measured_line(Drawing& drawing, PaperSpan span, double y, std::string_view words, const MeasuredRoom& room) {
  const double half = written_width(words) / 2 + 1, middle = room.free.middle();
  const bool inside = 2 * half <= room.free.wide();
  const std::string line = inside ? fmt::format("M{0} {1}H{2}M{3} {1}H{4}", mm(span.from), mm(y), mm(middle - half),
                                                mm(middle + half), mm(span.to))
                                  : fmt::format("M{} {}H{}", mm(span.from), mm(y), mm(span.to));
  const auto arrow = [&](double x, double in) { return fmt::format("M{} {}l{} -1l0 2z", mm(x), mm(y), mm(in)); };
  drawing.path(line, "fill=\"none\" stroke=\"currentColor\" stroke-width=\".3\"");
  drawing.path(arrow(span.from, 1.6) + arrow(span.to, -1.6), "");
  const double foot = y + kSink * kLetters;
  if (inside) return drawing.text(middle, foot, words, "text-anchor=\"middle\"");
  const bool right = room.around.to + 2 * half <= room.width;
  drawing.text(right ? room.around.to + 1.5 : room.around.from - 1.5, foot, words, right ? "" : "text-anchor=\"end\"");
}

}  // namespace ballchange
