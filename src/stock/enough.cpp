#include "stock/enough.hpp"

#include <algorithm>
#include <climits>
#include <cmath>

#include "base/normal.hpp"
#include "plan/supply.hpp"

namespace ballchange::stock {
namespace {

// Where it has to be simulated: the chance is then right to a third of a per cent.
plan::Simulation simulation() { return {1, 2, {}, 20'000}; }
// Beyond so many a few balls more or less are no question.
constexpr std::size_t kMostBalls = 300;
constexpr double kHair = 1e-9;

plan::OnHand as_on_hand(Length left, double variance) {
  return {std::max(left, Length()), std::nullopt, std::nullopt, Length::cm(std::sqrt(std::max(0.0, variance)))};
}

double square(Length length) { return length.cm() * length.cm(); }

// The strand on the hook with what hangs on it already: no join to come is needed for that.
struct OnHook {
  bool any = false;
  Length left;
  double variance = 0;
};

double chance(const plan::Work& work, int balls) {
  if (work.needed <= Length()) return 1;
  return balls < 1 ? 0 : plan::chance_of_enough(work, balls, simulation());
}

// The least count that surely is enough, all where none is: balls that are not needed are not joined.
int balls_to_use(const plan::Work& work, int balls) {
  int low = 0;  // isn't enough
  int high = balls;
  while (high - low > 1) {
    const int middle = low + (high - low) / 2;
    (chance(work, middle) >= kSurely ? high : low) = middle;
  }
  return high;
}

// The least number of rows without which it surely is enough.
std::optional<int> rows_to_leave_out(const State& state, const plan::Work& work, double takes, int balls, int most) {
  const Length row = *state.gauge.row() * takes;
  const auto enough_without = [&](int rows) {
    plan::Work less = work;
    less.needed = std::max(Length(), work.needed - rows * row);
    return chance(less, balls) >= kSurely;
  };
  int high = std::min(most, static_cast<int>(std::floor(*state.left.needed / *state.gauge.row() + kHair)));
  if (high < 1 || !enough_without(high)) return std::nullopt;
  int low = 0;  // isn't enough
  while (high - low > 1) {
    const int middle = low + (high - low) / 2;
    (enough_without(middle) ? high : low) = middle;
  }
  return high;
}

}  // namespace

// Long: a line for each thing the simulation is told.
std::optional<plan::Work> work_to_come(const State& state, const Stock& stock, const Joining& joining) {
  if (!state.left.needed || !state.left.length || !state.yarn.ball_length) return std::nullopt;
  if (state.working && state.balls[*state.working].overdrawn > Length()) return std::nullopt;
  plan::Work work;
  work.needed = *state.left.needed * stock.takes.share;
  work.needed_plus_minus = stock.takes.plus_minus / stock.takes.share;
  work.period = joining.period;
  work.allowance = joining.allowance;
  work.tolerance = joining.tolerance;
  work.sparing = joining.sparing;
  work.keep_from_start = joining.keep_from_start;
  work.ball = *state.yarn.ball_length;
  work.ball_plus_minus = stock.doubts.spread;
  OnHook hook;
  std::vector<plan::OnHand> fresh;
  for (std::size_t k = 0; k < state.balls.size(); ++k) {
    const BallState& ball = state.balls[k];
    if (ball.plain || ball.use == BallUse::used_up) continue;
    if (!stock.balls[k]) return std::nullopt;
    const OnBall& on = *stock.balls[k];
    if (ball.use == BallUse::fresh && ball.offcut) {
      // Put in where that saves more than its join takes: it bridges, and is nothing to go on with.
      hook.left += std::max(Length(), on.left - joining.allowance);
      continue;
    }
    if (ball.use == BallUse::fresh) {
      fresh.push_back(as_on_hand(on.left, square(on.plus_minus)));
      continue;
    }
    // More rows by the same share: what is left goes with what is needed.
    hook.any = true;
    hook.left += on.left;
    hook.variance += square(on.plus_minus) - 2 * state.left.needed->cm() * on.with_takes.cm();
  }
  if (hook.any) {
    work.on_hand.push_back(as_on_hand(hook.left, hook.variance));
  } else if (!fresh.empty()) {  // offcuts are put in once the first ball is begun
    fresh.front().yarn = *fresh.front().yarn + hook.left;
  }
  work.on_hand.insert(work.on_hand.end(), fresh.begin(), fresh.end());
  return work;
}

std::optional<double> chance_of_enough(const State& state, const Stock& stock, const Joining& joining) {
  const auto work = work_to_come(state, stock, joining);
  if (!work || state.balls.empty() || work->on_hand.size() > kMostBalls) return std::nullopt;
  return chance(*work, static_cast<int>(work->on_hand.size()));
}

std::optional<Outlook> outlook(const State& state, const Stock& stock, const Joining& joining,
                               std::optional<int> rows) {
  const auto work = work_to_come(state, stock, joining);
  if (!work || state.balls.empty() || work->on_hand.size() > kMostBalls) return std::nullopt;
  const auto balls = static_cast<int>(work->on_hand.size());
  Outlook told;
  told.needed = work->needed;
  told.whole_cut = joining.period;
  told.sparing = joining.sparing;
  told.chance = chance(*work, balls);
  if (told.needed <= Length() || balls == 0) return told;
  told.joins = balls_to_use(*work, balls) - 1;
  const plan::Reach reach = plan::Supply(*work).reach(balls);
  const Length sure = reach.over - normal_quantile(kSurely) * reach.spread - (balls - 1) * joining.allowance;
  told.may_cut = std::max(Length(), sure);
  told.full_cuts = static_cast<int>(std::min<double>(told.joins, std::floor(told.may_cut / told.whole_cut)));
  if (told.chance >= kSurely) return told;
  if (!work->sparing && told.joins > 0) {
    plan::Work sparing = *work;
    sparing.sparing = true;
    told.if_sparing = chance(sparing, balls);
  }
  told.with_one_more = chance(*work, balls + 1);
  if (!state.gauge.row()) return told;
  // Of a piece that isn't begun one row is left at least.
  const int most = rows.value_or(INT_MAX) - (state.at ? 0 : 1);
  told.leave_out = rows_to_leave_out(state, *work, stock.takes.share, balls, most);
  return told;
}

std::optional<Diamonds> whole_diamonds(const Colouring& yarn, int stitches, int rows) {
  const Fall falls = fall(yarn, stitches);
  if (!falls.rows || *falls.rows < 1) return std::nullopt;
  const auto count = static_cast<int>(std::ceil(rows / *falls.rows - kHair));
  return Diamonds{falls.look, count, static_cast<int>(std::ceil(count * *falls.rows - kHair))};
}

Rings rings_near(const Colouring& yarn, int stitches, int planned, Length tolerance, const RowsWorked& worked) {
  Rings rings;
  for (const Closing& closing : closings(yarn, stitches, 2 * planned, tolerance, worked)) {
    if (closing.rows <= planned) rings.below = closing;
    if (closing.rows > planned) {
      rings.above = closing;
      break;
    }
  }
  return rings;
}

}  // namespace ballchange::stock
