#include "project/ends_to_read.hpp"

#include <fmt/core.h>

#include <utility>

#include "base/problem.hpp"
#include "project/ball_ends.hpp"
#include "project/balls.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostPlaced = 6;  // each takes a moment, and people look at one ball after the other

std::string sentence(std::string text) {
  if (!text.empty() && text.back() != '?' && text.back() != '.') text += '.';
  return text;
}

// No reason: nothing.
EndToRead left_open(const OpenProject& open, const BallState& ball) {
  const auto open_end = [&](std::string why, bool settled = false) {
    return EndToRead{&ball, sentence(std::move(why)), settled};
  };
  const Measures measures = measures_of(Options(), open.project, open.state);
  try {
    const Reading reading = recorded_reading(open, *ball.first_reading(), ball.from);
    const MatchOptions match = expected(placing_options(Options(), measures), ball, ball.from);
    const Placing placing = place_reading(open.state.yarn, reading, match);
    const PlaceShown shown{open.state.yarn, reading, placing};
    switch (placing.verdict) {
      case Verdict::settled:
        return placing.ask ? open_end(question_text(*placing.ask, shown), true) : open_end({});
      case Verdict::unsettled:
        return open_end(what_would_settle(shown, measures.told));
      case Verdict::no_fit:
        return open_end("what is on record of it fits nowhere on the repeat: " + misfit_text(shown, measures.told));
    }
  } catch (const Problem& problem) {
    return open_end(fmt::format("what is on record of it can't be read: {}", problem.what()));
  }
  return open_end({});
}

}  // namespace

std::vector<EndToRead> ends_to_read(const OpenProject& open) {
  std::vector<EndToRead> ends;
  std::size_t placed = 0;
  for (const BallState* ball : fresh_balls(open.state)) {
    if (!ball->first_reading()) {
      ends.push_back({ball, {}, false});
    } else if (placed < kMostPlaced) {
      ++placed;
      EndToRead end = left_open(open, *ball);
      if (!end.why.empty()) ends.push_back(std::move(end));
    }
  }
  return ends;
}

}  // namespace ballchange
