#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "paper/drawing.hpp"
#include "show/text.hpp"

// Words on paper, and what stands below most pictures. All sizes are millimetres.
namespace ballchange {

inline constexpr double kLetters = 3.2;  // how large words are written
inline constexpr double kLine = 4.4;     // from one line to the next
inline constexpr double kSink = 0.36;    // of the letters' size: from their middle down to the line they stand on

// Nobody can know the font: wide enough for any usual one.
[[nodiscard]] double written_width(std::string_view words, double letters = kLetters);
[[nodiscard]] std::string cut_short(std::string_view words, double room, double letters = kLetters);
// Lines no wider than `room`, broken at blanks.
[[nodiscard]] std::vector<std::string> broken(std::string_view words, double room);

// What is seen where one shade lies over another, `share` of it, 0 .. 1.
[[nodiscard]] Shade blended(Shade under, Shade over, double share);

// Every colour as a swatch with its letter and its name, from (x, y) down, no wider than `room`. Filled as
// define_fills made them, begun with that key. The paper it takes.
Sheet colour_legend(Drawing& drawing, const std::vector<Colour>& colours, const std::vector<Ink>& inks, double x,
                    double y, double room, std::string_view key = {});
[[nodiscard]] Sheet legend_size(const std::vector<Colour>& colours, double room);

// A scale with its length in the user's unit, the longest round one up to `longest`; its bar lies on y. How wide it is.
double scale_bar(Drawing& drawing, double x, double y, double per_cm, Told told, double longest);

struct PaperSpan {
  double from = 0, to = 0;
  [[nodiscard]] double wide() const { return to - from; }
  [[nodiscard]] double middle() const { return (from + to) / 2; }
};
// Where the words of a measured line go: in the middle of `free`, where they fit, otherwise beyond `around`, within
// 0 .. width.
struct MeasuredRoom {
  PaperSpan free, around;
  double width = 0;
};
// A line from end to end with an arrow at both, which breaks off for its words.
void measured_line(Drawing& drawing, PaperSpan span, double y, std::string_view words, const MeasuredRoom& room);

}  // namespace ballchange
