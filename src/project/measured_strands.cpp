#include "project/measured_strands.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <set>
#include <utility>
#include <variant>

#include "base/problem.hpp"
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

// The same for the same reading, however it was typed.
std::string spelt_out(const Reading& reading, const MeasuredStrands& strands, const Ruler& ruler) {
  if (ruler.in_stitches) return format_reading(reading, strands.palette.colours, ruler);
  Ruler kept;
  kept.bare = strands.kept_in;
  return format_reading(reading, strands.palette.colours, kept);
}

// A name that is no more than the beginning of a colour: which one it stands for may change with the colours there are.
bool has_shortened(const std::string& text, const MeasuredStrands& strands, const Ruler& ruler) {
  Palette in_full = strands.palette;
  in_full.known = 0;
  static_cast<void>(parse_reading(text, End::new_end, in_full, ruler, "--strand"));
  return in_full.colours.size() > strands.palette.colours.size();
}

// Word for word where that reads back the same: a profile knows no yarn per stitch, and has its own unit.
std::string kept_text(const std::string& text, const Reading& reading, const MeasuredStrands& strands,
                      const Ruler& ruler) {
  const bool same_lengths = ruler.in_stitches || (ruler.bare == strands.kept_in && !has_stitches(text));
  return same_lengths && !has_shortened(text, strands, ruler) ? single_spaced(trim(text))
                                                              : spelt_out(reading, strands, ruler);
}

void add_reading(MeasuredStrands& strands, const std::string& text, End end, std::string_view what, const Ruler& ruler,
                 const MatchOptions& match, std::string name = {}) {
  strands.all.push_back({parse_reading(text, end, strands.palette, ruler, what), match});
  strands.names.push_back(std::move(name));
}

// What can't be read the fold remarks on, unless it was told anew.
void add_if_readable(MeasuredStrands& strands, const std::string& text, End end, std::string_view what,
                     const Ruler& ruler, const MatchOptions& match, std::string name) {
  const Palette before = strands.palette;
  try {
    add_reading(strands, text, end, what, ruler, match, std::move(name));
  } catch (const Problem&) {
    strands.palette = before;
  }
}

// From the old end in working order the other end comes first.
Reading in_order(Reading reading, bool backward) {
  if ((reading.end == End::old_end) != backward) {
    std::reverse(reading.entries.begin(), reading.entries.end());
    std::swap(reading.bar_at_loose_end, reading.bar_at_open_end);
  }
  reading.end = End::new_end;
  reading.loose.reset();
  return reading;
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

bool add_strand(MeasuredStrands& strands, const std::string& text, std::string_view what, const Measures& measures,
                const MatchOptions& match) {
  add_reading(strands, text, End::new_end, what, measures.ruler, match);
  const Reading& reading = strands.all.back().reading;
  if (!strands.written.insert(spelt_out(reading, strands, measures.ruler)).second) {
    strands.all.pop_back();
    strands.names.pop_back();
    return false;
  }
  strands.texts.push_back(kept_text(text, reading, strands, measures.ruler));
  return true;
}

void add_kept_strand(MeasuredStrands& strands, const std::string& text, std::string_view what, const Measures& measures,
                     const MatchOptions& match) {
  add_reading(strands, text, End::new_end, what, measures.ruler, match);
  strands.written.insert(spelt_out(strands.all.back().reading, strands, measures.ruler));
  strands.texts.push_back(text);
}

// A join recorded without --new copies what its ball's end was read as, without --old what was read of the old ball's
// other end: one measurement, to be learnt from once.
void add_project_readings(MeasuredStrands& strands, const OpenProject& open, const MatchOptions& match) {
  const State& state = open.state;
  std::set<std::pair<std::string, std::string>> of_balls;  // ball, reading
  auto joined = state.joins.begin();
  for (const LogEntry& entry : open.project.entries) {
    if (!state.counts(entry.n)) continue;
    const auto add = [&](const std::string& text, End end, const MatchOptions& placed, std::string name) {
      add_if_readable(strands, text, end, fmt::format("entry {} of the log", entry.n), state.ruler, placed,
                      std::move(name));
    };
    if (const auto* ball = std::get_if<did::Ball>(&entry.what)) {
      const BallState* of = state.find_ball(ball->ball);
      if (of == nullptr || of->plain) continue;
      const auto add_end = [&](const std::optional<std::string>& text, BallEnd end) {
        if (!text) return;
        of_balls.emplace(ball->ball, *text);
        add(*text, End::new_end, expected(match, *of, end),
            fmt::format("ball {}'s {} end", printable(ball->ball, 40), end == BallEnd::outside ? "outside" : "inside"));
      };
      add_end(ball->outside, BallEnd::outside);
      add_end(ball->inside, BallEnd::inside);
    } else if (const auto* join = std::get_if<did::Join>(&entry.what)) {
      while (joined->entry < entry.n) ++joined;
      const auto add_new = [&](const std::optional<std::string>& text, End end, const std::string& of) {
        if (!text || of_balls.count({of, *text}) > 0) return;
        add(*text, end, match,
            fmt::format("the end of ball {} at its join with ball {}", printable(of, 40),
                        printable(end == End::old_end ? joined->new_ball : joined->old_ball, 40)));
      };
      add_new(join->old_reading, End::old_end, joined->old_ball);
      // An offcut's end is what was read before it was cut off.
      const BallState* fresh = state.find_ball(joined->new_ball);
      if (fresh == nullptr || !fresh->offcut) add_new(join->new_reading, End::new_end, joined->new_ball);
    }
  }
}

void keep_project_readings(MeasuredStrands& strands, const Ruler& ruler, const std::vector<std::size_t>& backward) {
  for (std::size_t n = strands.texts.size(); n < strands.all.size(); ++n) {
    const bool turned = std::find(backward.begin(), backward.end(), n) != backward.end();
    strands.texts.push_back(spelt_out(in_order(strands.all[n].reading, turned), strands, ruler));
  }
}

}  // namespace ballchange
