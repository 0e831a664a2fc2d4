#include "project/first_stitch.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "console/place_word.hpp"
#include "project/ball_ends.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

// To what a tape holds: nobody leaves 96.4 cm.
Amount on_the_tape(Length length, const Measures& measures) {
  switch (measures.told) {
    case Told::stitches:
      return {std::round(length.cm()), Unit::st};
    case Told::inches:
      return {std::round(length / unit_length(Unit::in, {}) * 4) / 4, Unit::in};
    case Told::centimetres:
      break;
  }
  return {std::round(length.cm() * 2) / 2, Unit::cm};
}

Length foundation_of(const OpenProject& open) {
  const auto& told = open.project.piece.foundation;
  return told ? to_length({told->number, told->unit}, open.state.ruler, "foundation") : Length();
}

std::string how_to_begin(const OpenProject& open, Length trim, Told told) {
  const bool nothing = is_nothing(trim, told);
  std::string text = nothing ? std::string("start the foundation right at the loose end")
                             : fmt::format("leave {} at the loose end before the foundation", tape(trim, told));
  const auto stitches = open.state.fabric.stitches;
  const Length foundation = foundation_of(open);
  std::optional<Length> chain = open.state.fabric.yarn_per_stitch;
  if (stitches && foundation > Length()) chain = foundation / *stitches;
  const long more = chain && !nothing && told != Told::stitches ? std::lround(trim / *chain) : 0;
  if (more > 0) {
    text += fmt::format(", or make about {} more than you need and unpick {} from the beginning",
                        ballchange::stitches(more), more == 1 ? "it" : "them");
  }
  text += ".";
  if (!open.project.piece.foundation) text += " The foundation is not told, so its yarn is not counted.";
  return text;
}

}  // namespace

FirstStitch first_stitch(std::string_view text, const OpenProject& open, const Measures& measures,
                         const MatchOptions& match, const BallState& ball) {
  const Yarn& yarn = open.state.yarn;
  const std::vector<Length> places = parse_places(text, yarn.repeat, measures.ruler, "--first-stitch");
  const std::string_view end = end_name(ball.from);
  if (!ball.first_reading()) {
    throw Problem(Fault::content,
                  fmt::format("--first-stitch needs the {0} end of the ball: --{0} \"{1} 15, {2}\"", end,
                              printable(yarn.repeat.name_of(0), 40), printable(yarn.repeat.name_of(1), 40)));
  }
  const Reading reading = recorded_reading(open, *ball.first_reading(), ball.from);
  const Placing placing = place_reading(yarn, reading, expected(match, ball, ball.from));
  const PlaceShown shown{yarn, reading, placing};
  if (placing.verdict != Verdict::settled) {
    return {std::nullopt,
            fmt::format("not yet: {}", placing.verdict == Verdict::no_fit ? misfit_text(shown, measures.told)
                                                                          : what_would_settle(shown, measures.told))};
  }
  if (placing.best().direction == Direction::backward) {
    return {std::nullopt, fmt::format("the {} end runs the other way: begin from the other end of the ball.", end)};
  }
  Length trim = yarn.repeat.total();
  for (const Length place : places) {
    trim = std::min(trim, wrap(place - foundation_of(open) - placing.place, yarn.repeat.total()));
  }
  // What the tape would not show is no whole repeat to be cut off.
  if (is_nothing(yarn.repeat.total() - trim, measures.told)) trim = Length();
  return {on_the_tape(trim, measures), how_to_begin(open, trim, measures.told)};
}

}  // namespace ballchange
