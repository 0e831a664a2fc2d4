#include "project/two_ends.hpp"

#include <algorithm>

#include <fmt/core.h>

#include "base/limits.hpp"
#include "base/problem.hpp"
#include "base/text.hpp"
#include "console/screen.hpp"
#include "files/source.hpp"
#include "files/yaml_values.hpp"
#include "offcut/kept.hpp"
#include "project/advise_project.hpp"
#include "reading/fault.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostBytes = std::size_t{1} << 20U;

std::optional<std::string> one_end(std::string_view text) {
  const std::string_view reading = trim(text);
  if (reading.empty() || reading == "?") return std::nullopt;
  return std::string(reading);
}

std::string end_name(const TwoEnds& ends, bool first) {
  return (ends.from == BallEnd::outside) == first ? "outside" : "inside";
}

Reading read_end(const TwoEnds& ends, bool first, const Yarn& yarn, const Ruler& ruler) {
  Palette palette{yarn.repeat.colours(), false};
  const std::string what = fmt::format("ball {}, {} end", printable(ends.id, 40), end_name(ends, first));
  const std::string& text = first ? *ends.start : *ends.finish;
  return parse_reading(text, first ? End::new_end : End::old_end, palette, ruler, what);
}

class EndPlacing {
 public:
  EndPlacing(const TwoEnds& ends, const Yarn& yarn, const Measures& measures, std::vector<OpenEnd>& open)
      : ends_(ends), yarn_(yarn), measures_(measures), axis_(mirror_axis(yarn.repeat)), open_(open) {}

  // Where that end lies; what keeps it from being known is added to what is open.
  std::optional<Candidate> place(bool first, const MatchOptions& match) {
    if (!(first ? ends_.start : ends_.finish)) return std::nullopt;
    const Reading reading = read_end(ends_, first, yarn_, measures_.ruler);
    const Placing placing = place_reading(yarn_, reading, match);
    const std::string called = end_name(ends_, first) + " end";
    const PlaceShown shown{yarn_, reading, placing, called};
    if (placing.verdict == Verdict::no_fit) {
      add(OpenEnd::Why::no_fit, end_name(ends_, first), misfit_text(shown, measures_.told));
      return std::nullopt;
    }
    if (placing.verdict == Verdict::unsettled) {
      add(OpenEnd::Why::unsettled, end_name(ends_, first), what_would_settle(shown, measures_.told));
      open_.back().measure_more = placing.measure_more;
      return std::nullopt;
    }
    const auto longer = creeping::longer_by(yarn_, reading, placing, match.tape);
    if (longer && longer->tells() && !longer_) longer_ = longer;
    Candidate best = placing.best();
    if (axis_ && best.direction == Direction::backward) {
      best.direction = Direction::forward;
      best.place = wrap(*axis_ - best.place, yarn_.repeat.total());
    } else if (placing.ask) {
      add(OpenEnd::Why::other_way, end_name(ends_, first), question_text(*placing.ask, shown));
      return std::nullopt;
    }
    return best;
  }

  void add(OpenEnd::Why why, std::string end, std::string ask) {
    open_.push_back({ends_.id, std::move(end), why, std::move(ask), std::nullopt});
  }

  [[nodiscard]] const std::optional<creeping::Longer>& longer() const { return longer_; }

 private:
  const TwoEnds& ends_;
  const Yarn& yarn_;
  const Measures& measures_;
  std::optional<Length> axis_;
  std::optional<creeping::Longer> longer_;
  std::vector<OpenEnd>& open_;
};

bool is_digit_at(std::string_view text, std::size_t at) {
  return at < text.size() && text[at] >= '0' && text[at] <= '9';
}

// Where the second end begins: at a slash that is not that of a fraction.
std::size_t slash_between_ends(std::string_view text) {
  std::size_t at = text.find('/');
  while (at != std::string_view::npos && at > 0 && is_digit_at(text, at - 1) && is_digit_at(text, at + 1)) {
    at = text.find('/', at + 1);
  }
  return at;
}

TwoEnds parse_ends(std::string_view text, const Yarn& yarn) {
  const std::size_t colon = text.find(':');
  const std::string_view id = colon == std::string_view::npos ? std::string_view() : trim(text.substr(0, colon));
  const std::string_view rest = colon == std::string_view::npos ? std::string_view() : text.substr(colon + 1);
  const std::size_t slash = slash_between_ends(rest);
  if (id.empty() || slash == std::string_view::npos) {
    const std::string& colour = yarn.repeat.name_of(0);
    throw Problem(
        Fault::content,
        fmt::format("--ends: '{}' is not a ball and what its two ends show, as in \"A: {} 15, {} / {} 20, {}\"",
                    printable(text, 60), printable(colour), printable(yarn.repeat.name_of(1)),
                    printable(yarn.repeat.name_of(yarn.repeat.size() - 1)), printable(colour)));
  }
  if (const auto fault = line_fault(id, "--ends: a ball's name", kMostNameBytes)) throw Problem(Fault::content, *fault);
  TwoEnds ends;
  ends.id = std::string(id);
  ends.start = one_end(rest.substr(0, slash));
  ends.finish = one_end(rest.substr(slash + 1));
  ends.yarn = yarn.ball_length;
  return ends;
}

}  // namespace

std::vector<TwoEnds> parse_all_ends(const std::vector<std::string>& texts, const Yarn& yarn, const Context& context) {
  std::vector<TwoEnds> all;
  for (const std::string& text : texts) {
    if (text.empty() || text.front() != '@') {
      all.push_back(parse_ends(text, yarn));
      continue;
    }
    if (text.size() == 1) throw Problem(Fault::content, "--ends: '@' without a file name; write @FILE");
    const std::string lines = read_file(context.disk, text.substr(1), kMostBytes);
    const std::size_t before = all.size();
    for (std::size_t at = lines.starts_with("\xEF\xBB\xBF") ? 3 : 0; at < lines.size();) {
      const std::size_t stop = std::min(lines.find('\n', at), lines.size());
      const std::string_view line = trim(std::string_view(lines).substr(at, stop - at));
      if (!line.empty()) all.push_back(parse_ends(line, yarn));
      at = stop + 1;
    }
    if (all.size() == before) {
      throw Problem(Fault::content,
                    fmt::format("--ends: {} is empty; write a ball a line into it, like A: plum 15, sand / navy 20",
                                printable(text.substr(1))));
    }
  }
  return all;
}

PlacedBall placed_ball(const TwoEnds& ends, const Yarn& yarn, const Measures& measures, const MatchOptions& match,
                       std::vector<OpenEnd>& open) {
  EndPlacing placing(ends, yarn, measures, open);
  if (!ends.start && !ends.finish) {
    placing.add(OpenEnd::Why::not_read, "", "Write down what at least one of them shows.");
    return {};
  }
  MatchOptions options = match;
  if (ends.wound) options.wound = *ends.wound == Winding::mill ? Wound::mill : Wound::hand;
  const std::size_t before = open.size();
  const auto start = placing.place(true, options);
  const auto finish = placing.place(false, options);
  if (open.size() > before) return {};
  if (start && finish && start->direction != finish->direction) {
    placing.add(OpenEnd::Why::two_ways, "", "Was one of them written towards its loose end?");
    return {};
  }
  PlacedBall placed;
  placed.direction = start ? start->direction : finish->direction;
  placed.longer = placing.longer();
  if (start) placed.start = start->place;
  if (finish) placed.finish = finish->place;
  return placed;
}

std::optional<PlacedBall> finish_as_cut(const State& state, const Ruler& written, const BallState& ball) {
  const auto cut = offcuts::last_end(state, written, ball);
  if (!cut) return std::nullopt;
  PlacedBall placed{std::nullopt, cut->placing.place, cut->placing.best().direction};
  if (const auto axis = mirror_axis(state.yarn.repeat); axis && placed.direction == Direction::backward) {
    placed.direction = Direction::forward;
    placed.finish = wrap(*axis - *placed.finish, state.yarn.repeat.total());
  }
  return placed;
}

TwoEnds recorded_ends(const BallState& ball, const Options& options, const Yarn& yarn, const Measures& written,
                      const Context& context) {
  TwoEnds ends{ball.id, ball.outside, ball.inside, ball.from, ball.wound, ball.left ? ball.left : ball.length};
  if (ball.from == BallEnd::inside) ends.start.swap(ends.finish);
  if (options.has("wound")) ends.wound.reset();
  for (const bool first : {true, false}) {
    std::optional<std::string>& text = first ? ends.start : ends.finish;
    try {
      if (text) (void)read_end(ends, first, yarn, written.ruler);
    } catch (const Problem& problem) {
      // What can never be read is told among the file's troubles.
      const End end = first ? End::new_end : End::old_end;
      if (!reading_fault(*text, end, yarn.repeat.colours(), written.ruler, {})) remark(context, problem.what());
      text.reset();
    }
  }
  return ends;
}

BallsTold told_without_project(const Options& options, const Context& context, const Common& common) {
  Yarn yarn = yarn_of(options, context);
  const Measures measures = measures_of(options, common, &yarn);
  const MatchOptions match = match_options(options, measures);
  BallsTold told{std::move(yarn), measures, measures, match, join_wish(options, measures.ruler, match.tape), {}, {}};
  told.fabric.yarn_per_stitch = measures.ruler.yarn_per_stitch;
  return told;
}

BallsTold told_by(const OpenProject& open, const Options& options) {
  const ProjectTerms terms = terms_of(options, open.project, open.state);
  Measures written = terms.measures;
  written.ruler = ruler_on_record(written.ruler, open.project);
  return {open.state.yarn, terms.measures, written, terms.match, terms.wish, terms.fabric, {}};
}

}  // namespace ballchange
