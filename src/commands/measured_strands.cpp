#include "commands/measured_strands.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <variant>

#include "base/text.hpp"
#include "reading/name.hpp"

namespace ballchange {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "42 st", "42st": a length in stitches.
bool has_stitches(std::string_view text) {
  for (std::size_t at = text.find("st"); at != std::string_view::npos; at = text.find("st", at + 1)) {
    const std::size_t after = at + 2;
    const bool ends = after == text.size() || std::string_view(" ,+|\n\t").find(text[after]) != std::string_view::npos;
    std::size_t before = at;
    while (before > 0 && text[before - 1] == ' ') --before;
    if (ends && before > 0 && is_digit(text[before - 1])) return true;
  }
  return false;
}

// Word for word where that reads back the same: a profile knows no yarn per stitch, and has its own unit.
std::string kept_text(const std::string& text, const Reading& reading, const MeasuredStrands& strands,
                      const Ruler& ruler) {
  const bool as_it_stands = ruler.in_stitches || (ruler.bare == strands.kept_in && !has_stitches(text));
  if (as_it_stands) return single_spaced(trim(text));
  Ruler kept;
  kept.bare = strands.kept_in;
  return format_reading(reading, strands.palette.colours, kept);
}

void add_reading(MeasuredStrands& strands, const std::string& text, End end, std::string_view what, const Ruler& ruler,
                 const MatchOptions& match) {
  strands.all.push_back({parse_reading(text, end, strands.palette, ruler, what), match});
}

}  // namespace

Measures strand_measures(const std::vector<std::string>& texts, const Options& options, const Common& common,
                         const Yarn* known) {
  Measures measures = measures_of(options, common, known);
  const bool stitches = std::any_of(texts.begin(), texts.end(), [](const std::string& t) { return has_stitches(t); });
  if (known == nullptr && stitches && !measures.ruler.yarn_per_stitch) {
    measures.ruler = {Unit::st, std::nullopt, true, measures.ruler.ask_for_stitch};
    measures.told = Told::stitches;
  }
  return measures;
}

void add_strand(MeasuredStrands& strands, const std::string& text, std::string_view what, const Measures& measures,
                const MatchOptions& match) {
  add_reading(strands, text, End::new_end, what, measures.ruler, match);
  strands.texts.push_back(kept_text(text, strands.all.back().reading, strands, measures.ruler));
}

void add_project_readings(MeasuredStrands& strands, const OpenProject& open, const MatchOptions& match) {
  std::set<int> cancelled;
  for (const LogEntry& entry : open.project.entries) {
    if (const auto* cancel = std::get_if<did::Cancel>(&entry.what)) cancelled.insert(cancel->entry);
  }
  const Ruler& ruler = open.state.ruler;
  for (const LogEntry& entry : open.project.entries) {
    if (cancelled.count(entry.n) > 0) continue;
    const auto add = [&](const std::optional<std::string>& text, End end, const MatchOptions& placed) {
      if (text) add_reading(strands, *text, end, fmt::format("entry {} of the log", entry.n), ruler, placed);
    };
    if (const auto* ball = std::get_if<did::Ball>(&entry.what)) {
      const auto of = std::find_if(open.state.balls.begin(), open.state.balls.end(),
                                   [&](const BallState& state) { return state.id == ball->ball; });
      if (of == open.state.balls.end() || of->plain) continue;
      add(ball->outside, End::new_end, expected(match, *of, BallEnd::outside));
      add(ball->inside, End::new_end, expected(match, *of, BallEnd::inside));
    } else if (const auto* join = std::get_if<did::Join>(&entry.what)) {
      add(join->old_reading, End::old_end, match);
      add(join->new_reading, End::new_end, match);
    }
  }
}

}  // namespace ballchange
