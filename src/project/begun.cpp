#include "project/begun.hpp"

#include "base/problem.hpp"
#include "match/place.hpp"
#include "project/project.hpp"

namespace ballchange {

std::optional<BegunAt> begun_at(const Project& project, const State& state) {
  if (!state.begun || !state.begun->reading) return std::nullopt;
  Palette palette{state.yarn.repeat.colours(), false};
  const Ruler ruler = ruler_on_record(state.ruler, project);
  const BallState& ball = state.balls[state.begun->ball];
  try {
    const Reading reading = parse_reading(*state.begun->reading, End::new_end, palette, ruler, "begin");
    const Placing placing = Matcher(state.yarn).match(reading, expected({}, ball, ball.from));
    if (placing.verdict != Verdict::settled) return std::nullopt;
    const Direction direction = placing.best().direction;
    const Length place = direction == Direction::forward ? placing.place : state.yarn.repeat.total() - placing.place;
    return BegunAt{direction, place + state.begun->trim, placing.spread_sd * placing.spread_sd};
  } catch (const Problem&) {
    return std::nullopt;
  }
}

}  // namespace ballchange
