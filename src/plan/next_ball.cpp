#include "plan/next_ball.hpp"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <tuple>
#include <utility>

#include "plan/kept.hpp"
#include "plan/trims.hpp"

namespace ballchange::plan {
namespace {

// The other balls, to follow this one joined so.
Hand after(const Hand& hand, const Placed& ball, const Joined& now) {
  Hand rest = hand;
  rest.begin = Begin{finish_of(hand, ball), hand.allowance, hand.begin->out_of_step + now.shift};
  rest.balls.erase(rest.balls.begin() + static_cast<std::ptrdiff_t>(ball.ball));
  if (hand.need) {
    const Tenths brings = hand.balls[ball.ball].yarn - now.discard - hand.begin->allowance;
    rest.need = std::max<Tenths>(0, *hand.need - brings);
  }
  return rest;
}

NextBall next_with(const Hand& hand, const Placed& ball, const Joined& now, const Effort& effort) {
  const Hand rest = after(hand, ball, now);
  if (rest.balls.empty() || rest.need == 0) return {ball, now, 0, true, std::nullopt, false};
  const Best best = best_order(rest, effort);
  const auto joins = static_cast<Tenths>(best.order.balls.size());
  Placed then = best.order.balls.front();
  if (then.ball >= ball.ball) ++then.ball;
  const Joined& first = *best.order.first;
  const bool follows = !first.mean && first.discard == 0;
  return {ball, now, best.order.discard + joins * hand.allowance, best.proven, then, follows};
}

bool better(const NextBall& a, const NextBall& b) {
  return std::tuple(a.in_all(), a.now.discard) < std::tuple(b.in_all(), b.now.discard);
}

Tenths cost_now(const Hand& hand, std::size_t ball) {
  const Tenths told = priced(hand, between(hand, *hand.begin, {ball, false})).discard;
  return hand.mirror ? std::min(told, priced(hand, between(hand, *hand.begin, {ball, true})).discard) : told;
}

}  // namespace

std::vector<std::size_t> cheapest_now(const Hand& hand, std::size_t most, std::optional<std::size_t> own) {
  assert(hand.begin);
  std::vector<std::pair<Tenths, std::size_t>> costs;
  for (std::size_t k = 0; k < hand.balls.size(); ++k) costs.emplace_back(k == own ? Tenths{-1} : cost_now(hand, k), k);
  std::sort(costs.begin(), costs.end());
  costs.resize(std::min(most, costs.size()));
  std::vector<std::size_t> balls;
  for (const auto& cost : costs) balls.push_back(cost.second);
  std::sort(balls.begin(), balls.end());
  return balls;
}

std::vector<NextBall> next_balls(const Hand& hand, const Effort& effort) {
  assert(hand.begin);
  std::vector<NextBall> all;
  for (std::size_t k = 0; k < hand.balls.size(); ++k) {
    for (const bool turned : {false, true}) {
      if (turned && !hand.mirror) continue;
      std::vector<NextBall> joined_so;
      const Placed ball{k, turned};
      const auto gap = between(hand, *hand.begin, ball);
      Ways joined{{priced(hand, gap), {}}, 1};
      if (hand.keep_from_start) joined = ways(hand, gap, hand.begin->out_of_step);
      for (std::size_t way = 0; way < joined.count; ++way) {
        joined_so.push_back(next_with(hand, ball, joined.way[way], effort));
      }
      all.push_back(*std::min_element(joined_so.begin(), joined_so.end(), better));
    }
  }
  std::stable_sort(all.begin(), all.end(), better);
  return all;
}

}  // namespace ballchange::plan
