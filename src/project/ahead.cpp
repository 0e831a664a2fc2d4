#include "project/ahead.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "plan/next_ball.hpp"
#include "plan/trims.hpp"
#include "project/balls.hpp"
#include "project/laying.hpp"

namespace ballchange {
namespace {

// Shared by all balls, so that an answer at the chair never has to be waited for.
constexpr std::int64_t kSteps = 40'000'000;
// Those that cost least now. All orders of so many are weighed in a tenth of a second, of five times as many in a
// minute.
constexpr std::size_t kMostBalls = 60;

// Not read, or read so that nothing is settled: it then counts as not read.
void lay(Laying& laying, const BallState& ball, const BallsTold& told, const ProjectAdvice& advised,
         const Options& options, const Context& context) {
  std::vector<OpenEnd> open;
  TwoEnds ends = recorded_ends(ball, options, told.yarn, told.written, context);
  // What was just read of it goes before what is on record.
  if (options.has("new") && ball.id == advised.on_record.ball) {
    ends.start = format_reading(advised.new_strand.reading, told.yarn.repeat.colours(), told.written.ruler);
  }
  laying.add(ends, open);
}

// Yarn that the fresh balls must still bring; nothing where the record doesn't tell.
std::optional<Length> still_needed(const State& state) {
  if (!state.planned || !state.used) return std::nullopt;
  for (const BallState* ball : fresh_balls(state)) {
    if (!ball->left && !ball->length) return std::nullopt;
  }
  return std::max(Length(), *state.planned - *state.used);
}

bool knows_finishes(const plan::Hand& hand) {
  return std::any_of(hand.balls.begin(), hand.balls.end(), [](const plan::Ball& ball) { return ball.finish; });
}

BallAhead told_of(const plan::NextBall& next, const plan::Hand& hand, const std::vector<OrderedBall>& balls,
                  const State& state) {
  const OrderedBall& ball = balls[next.ball.ball];
  const plan::Ball& ends = hand.balls[next.ball.ball];
  BallAhead ahead;
  ahead.ball = ball.id;
  ahead.other_end = ball.other_end != next.ball.turned;
  const bool outside = (state.find_ball(ball.id)->from == BallEnd::outside) != ahead.other_end;
  ahead.end = outside ? BallEnd::outside : BallEnd::inside;
  ahead.unread = !(next.ball.turned ? ends.finish : ends.start);
  ahead.now = plan::length(next.now.discard);
  ahead.later = plan::length(next.later);
  if (next.then && next.then_follows) ahead.follows = balls[next.then->ball].id;
  return ahead;
}

// Which of them are looked at, where they are too many.
std::vector<std::size_t> looked_at(const plan::Hand& hand, const std::vector<OrderedBall>& balls,
                                   const std::string& own) {
  const auto chosen = std::find_if(balls.begin(), balls.end(), [&](const OrderedBall& ball) { return ball.id == own; });
  const auto index = static_cast<std::size_t>(chosen - balls.begin());
  return plan::cheapest_now(hand, kMostBalls, chosen == balls.end() ? std::nullopt : std::optional(index));
}

}  // namespace

Length unread_mean(const OpenProject& open, const Options& options) {
  const BallsTold told = told_by(open, options);
  return plan::length(plan::mean_trim(Laying(told).hand()).discard);
}

BallsAhead balls_ahead(const OpenProject& open, const ProjectAdvice& advised, const Options& options,
                       const Context& context) {
  const Placing& old_end = advised.old_strand.placing;
  const auto fresh = fresh_balls(open.state);
  if (options.has("knot") || fresh.empty() || old_end.verdict != Verdict::settled) return {};
  const BallsTold told = told_by(open, options);
  Laying laying(told);
  laying.goes_on_from(old_end.place, old_end.best().direction, told.wish.out_of_step);
  for (const BallState* ball : fresh) lay(laying, *ball, told, advised, options, context.muted());
  if (!knows_finishes(laying.hand()) || (fresh.size() == 1 && !laying.hand().mirror)) return {};
  if (const auto need = still_needed(open.state)) laying.needs(*need);
  plan::Hand hand = laying.hand();
  const std::vector<std::size_t> looked = looked_at(hand, laying.balls(), advised.on_record.ball);
  hand.balls.clear();
  std::vector<OrderedBall> balls;
  for (const std::size_t k : looked) {
    hand.balls.push_back(laying.hand().balls[k]);
    balls.push_back(laying.balls()[k]);
  }
  BallsAhead all{{}, fresh.size() - looked.size()};
  const plan::Effort effort{kSteps / static_cast<std::int64_t>(looked.size())};
  for (const plan::NextBall& next : plan::next_balls(hand, effort)) {
    all.balls.push_back(told_of(next, hand, balls, open.state));
  }
  return all;
}

}  // namespace ballchange
