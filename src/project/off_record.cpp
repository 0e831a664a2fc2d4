#include "project/off_record.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <string_view>
#include <tuple>

#include "base/text.hpp"
#include "ledger/worked.hpp"
#include "project/balls.hpp"
#include "project/project.hpp"
#include "show/entry_text.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

// A file edited by hand may hold what is no reading.
std::optional<Placing> placed_before(Matcher& matcher, const Project& project, const State& state,
                                     const std::string& text, End end, const MatchOptions& match) {
  Palette palette{state.yarn.repeat.colours(), false};
  const Ruler ruler = ruler_on_record(state.ruler, project);
  try {
    return matcher.match(parse_reading(text, end, palette, ruler, end == End::old_end ? "old" : "new"), match);
  } catch (const Problem&) {
    return std::nullopt;
  }
}

// What the ball in work still holds at a place; below nothing where it ends before. Nothing where that isn't known.
std::optional<Length> held_at(const State& state, const WorkPlace& at) {
  if (!state.working || !state.used) return std::nullopt;
  const BallState& ball = state.balls[*state.working];
  const auto used = state.gauge.used(at);
  if (ball.plain || !ball.left || !used) return std::nullopt;
  return *ball.left - ball.overdrawn - (*used - *state.used);
}

}  // namespace

std::vector<const BallState*> unsettled_balls(const Project& project, const State& state, const MatchOptions& match,
                                              const BallState* only) {
  Matcher matcher(state.yarn);
  // Balls of one lot are often read alike.
  std::map<std::tuple<std::string_view, Worked, Wound>, bool> told;
  std::vector<const BallState*> unsettled;
  for (const BallState* ball : fresh_balls(state)) {
    if (!ball->first_reading() || (only != nullptr && ball != only)) continue;
    const MatchOptions expects = expected(match, *ball, ball->from);
    const auto [known, is_new] = told.try_emplace({*ball->first_reading(), expects.worked, expects.wound}, false);
    if (is_new) {
      const auto placing = placed_before(matcher, project, state, *ball->first_reading(), End::new_end, expects);
      known->second = placing && placing->verdict == Verdict::unsettled;
    }
    if (known->second) unsettled.push_back(ball);
  }
  return unsettled;
}

std::optional<TooMuchLeft> too_much_left(const State& state, const Reading& old_reading) {
  auto much = too_much_left(state, old_reading.loose.value_or(old_reading.measured()));
  if (!much) return much;
  much->loose = old_reading.loose;
  much->cut = false;
  return much;
}

std::optional<TooMuchLeft> too_much_left(const State& state, Length cut_off) {
  if (!state.working || !state.at) return std::nullopt;
  const BallState& ball = state.balls[*state.working];
  const auto row = state.gauge.row();
  if (ball.plain || !ball.left || !row) return std::nullopt;
  const Length doubt = kBallDoubt * ball.length.value_or(Length()) + kRowsUnrecorded * *row;
  if (*ball.left - cut_off <= doubt) return std::nullopt;
  return TooMuchLeft{ball.id, *ball.left, std::nullopt, true, std::nullopt};
}

std::optional<TooMuchLeft> left_behind(const State& state, const WorkPlace& at, Length taken) {
  const auto left = held_at(state, at);
  if (!left) return std::nullopt;
  const BallState& ball = state.balls[*state.working];
  const Length used = *state.gauge.used(at);
  // Of a ball weighed past its end nothing is known; the log remarks on that.
  const bool past_end = std::any_of(state.weighings.begin(), state.weighings.end(), [&](const Weighing& weighing) {
    return weighing.ball == *state.working && weighing.in_work && weighing.used && *weighing.used > used;
  });
  if (past_end) return std::nullopt;
  if (*left - taken <= kBallDoubt * ball.length.value_or(Length()) + kRowsUnrecorded * *state.gauge.row()) {
    return std::nullopt;
  }
  return TooMuchLeft{ball.id, *left, std::nullopt, false, at};
}

std::optional<BallReach> reaches_before(const State& state, const WorkPlace& at) {
  const auto left = held_at(state, at);
  if (!left || reaches_only(state)) return std::nullopt;
  const BallState& ball = state.balls[*state.working];
  if (!ball.length || *left >= -kBallDoubt * *ball.length || state.begins_or_later(ball.id)) return std::nullopt;
  const auto end = state.gauge.place(*state.gauge.used(at) + *left);
  return end ? std::optional(BallReach{ball.id, end->row}) : std::nullopt;
}

std::optional<KnotBehind> knot_behind(const State& state, const WorkPlace& at, int rows) {
  if (!state.hook) return std::nullopt;
  const WorkPlace late{at.row + rows, at.stitch};
  if (!(late < *state.hook)) return std::nullopt;
  const bool whole = row_is_done(*state.hook, state.fabric);
  return KnotBehind{at, {state.hook->row, whole ? std::nullopt : state.hook->stitch}};
}

std::optional<OtherEnd> other_end_off(const Project& project, const State& state, const Strand& old_strand,
                                      const MatchOptions& match) {
  if (!state.working || old_strand.placing.verdict != Verdict::settled) return std::nullopt;
  const BallState& ball = state.balls[*state.working];
  const BallEnd other = ball.from == BallEnd::outside ? BallEnd::inside : BallEnd::outside;
  const std::optional<std::string>& text = other == BallEnd::inside ? ball.inside : ball.outside;
  if (!text) return std::nullopt;
  Matcher matcher(state.yarn);
  const auto before = placed_before(matcher, project, state, *text, End::old_end, match);
  if (!before) return std::nullopt;
  if (may_be_one_end(old_strand.placing, *before, state.yarn.repeat.total()) != false) return std::nullopt;
  return OtherEnd{ball.id, other, *text};
}

std::optional<bool> may_be_one_end(const Placing& a, const Placing& b, Length period) {
  if (a.verdict != Verdict::settled || b.verdict != Verdict::settled) return std::nullopt;
  const bool one_way = a.best().direction == b.best().direction;
  return one_way && abs(nearest(a.place - b.place, period)) <= doubt_of(a) + doubt_of(b);
}

std::string lacks_first_end(const State& state, const BallState& ball) {
  const auto apart = balls_come_apart(state);
  const std::string name = printable(ball.id, 60);
  if (std::count(apart.begin(), apart.end(), ball.id) > 0) {
    return fmt::format("ball {} came apart from the work since its {} end was read, so that is to be read again", name,
                       end_name(ball.from));
  }
  return fmt::format("the {} end of ball {} is not on record", end_name(ball.from), name);
}

std::vector<std::string> balls_come_apart(const State& state) {
  std::vector<std::string> balls;
  for (const BallState* ball : fresh_balls(state)) {
    const bool apart = std::any_of(state.joins.begin(), state.joins.end(), [&](const JoinState& join) {
      return join.held == JoinHeld::apart && join.new_ball == ball->id;
    });
    if (apart && !ball->first_reading()) balls.push_back(ball->id);
  }
  return balls;
}

}  // namespace ballchange
