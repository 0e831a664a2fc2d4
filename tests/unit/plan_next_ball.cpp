#include <doctest/doctest.h>

#include <algorithm>
#include <vector>

#include "base/random.hpp"
#include "plan/next_ball.hpp"

using namespace ballchange;
using namespace ballchange::plan;

namespace {

// R 100, no allowance, no tolerance, work that stops at place 50.
Hand hand_of(const std::vector<Ball>& balls) {
  Hand hand;
  hand.period = 100;
  hand.begin = Begin{50, 0, 0};
  hand.balls = balls;
  return hand;
}

// The least that any order beginning with that ball loses, by trying them all.
Tenths least_by_trying(const Hand& hand, std::size_t first) {
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < hand.balls.size(); ++k) {
    if (k != first) order.push_back(k);
  }
  Tenths least = 1'000'000;
  do {
    std::vector<Placed> all{{first, false}};
    for (const std::size_t k : order) all.push_back({k, false});
    const auto joins = static_cast<Tenths>(hand.balls.size()) - 1;
    Tenths cost = joins * hand.allowance;
    Tenths at = *hand.begin->place;
    Tenths allowance = hand.begin->allowance;
    for (const Placed& ball : all) {
      const Tenths v = wrapped(at - *hand.balls[ball.ball].start - allowance + hand.tolerance, hand.period);
      cost += std::max<Tenths>(0, v - (hand.sparing ? 2 : 1) * hand.tolerance);
      at = *hand.balls[ball.ball].finish;
      allowance = hand.allowance;
    }
    least = std::min(least, cost);
  } while (std::next_permutation(order.begin(), order.end()));
  return least;
}

}  // namespace

TEST_CASE("the ball that is cheapest now can be the dearest in all") {
  const Hand hand = hand_of({{40, 70}, {45, 60}});
  // A first: 10 now, then B from 70: 25. B first: 5 now, then A from 60: 20.
  std::vector<NextBall> next = next_balls(hand);
  REQUIRE(next.size() == 2);
  CHECK(next[0].ball.ball == 1);
  CHECK(next[0].now.discard == 5);
  CHECK(next[0].later == 20);
  CHECK(next[1].now.discard == 10);
  CHECK(next[1].later == 25);

  // B now ends at 35: A from there cuts 95.
  next = next_balls(hand_of({{40, 70}, {45, 35}}));
  CHECK(next[0].ball.ball == 0);
  CHECK(next[0].in_all() == 35);
  CHECK(next[0].then == Placed{1, false});
  CHECK(next[1].now.discard == 5);
  CHECK(next[1].later == 95);
}

// R 100, axis 0: turned, a ball goes from 100 - its finish to 100 - its start.
TEST_CASE("where yarn reads alike from both ends a ball is told from either") {
  Hand hand = hand_of({{10, 45}});
  hand.mirror = 0;
  const std::vector<NextBall> one = next_balls(hand);
  REQUIRE(one.size() == 2);
  CHECK(one[0].ball == Placed{0, false});
  CHECK(one[0].in_all() == 40);
  CHECK(one[1].ball == Placed{0, true});
  CHECK(one[1].in_all() == 95);

  hand.balls = {{10, 55}, {70, 40}};
  const std::vector<NextBall> two = next_balls(hand);
  REQUIRE(two.size() == 4);
  // A turned starts at 45 and stops at 90: 5 now, then B as it is 20. A as it is: 40 now, from 55 then B as it is, at
  // 70: 85, or B turned, at 60: 95. B as it is: 80 now, from 40 then A 30. B turned, from 60 to 30: 90 now, then A 20.
  CHECK(two[0].ball == Placed{0, true});
  CHECK(two[0].in_all() == 25);
  const auto in_all = [&](const Placed& ball) {
    return std::find_if(two.begin(), two.end(), [&](const NextBall& next) { return next.ball == ball; })->in_all();
  };
  CHECK(in_all({0, false}) == 40 + 85);
  CHECK(in_all({1, false}) == 80 + 30);
  CHECK(in_all({1, true}) == 90 + 20);
}

TEST_CASE("a ball that follows another with nothing to cut is the one after it") {
  const std::vector<NextBall> next = next_balls(hand_of({{50, 20}, {70, 90}, {20, 80}}));
  CHECK(next[0].ball.ball == 0);
  CHECK(next[0].now.discard == 0);
  CHECK(next[0].then == Placed{2, false});
  CHECK(next[0].later == 10);
}

TEST_CASE("an end that is not read counts with what a join costs on average") {
  // R 100, t 0: 50 a join.
  const std::vector<NextBall> next = next_balls(hand_of({{40, std::nullopt}, {30, 45}}));
  CHECK(next[0].ball.ball == 1);  // 20 now and 5 later; the other 10 now and 50 later
  CHECK(next[0].in_all() == 25);
  CHECK(next[1].in_all() == 60);
}

TEST_CASE("with yarn to spare the later joins are those of as few balls as it takes") {
  Hand hand = hand_of({{40, 70}, {45, 35}});
  for (Ball& ball : hand.balls) ball.yarn = 1000;
  hand.need = 900;
  const std::vector<NextBall> next = next_balls(hand);
  CHECK(next[0].ball.ball == 1);
  CHECK(next[0].later == 0);
  CHECK_FALSE(next[0].then);
}

TEST_CASE("what a ball leaves for the rest is the least of all orders that begin with it") {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Random random(seed);
    Hand hand;
    hand.period = 2000;
    hand.allowance = static_cast<Tenths>(random.below(100));
    hand.tolerance = static_cast<Tenths>(random.below(60));
    hand.sparing = random.below(2) == 1;
    hand.begin = Begin{static_cast<Tenths>(random.below(2000)), hand.allowance, 0};
    const std::size_t balls = 1 + random.below(6);
    for (std::size_t k = 0; k < balls; ++k) {
      hand.balls.push_back({static_cast<Tenths>(random.below(2000)), static_cast<Tenths>(random.below(2000)), 0});
    }
    CAPTURE(seed);
    for (const NextBall& next : next_balls(hand)) {
      CAPTURE(next.ball.ball);
      CHECK(next.proven);
      CHECK(next.in_all() == least_by_trying(hand, next.ball.ball));
    }
  }
}

// Costs now: 10, 45, 5, 20 and, not known, 50 on average.
TEST_CASE("of many balls those that cost least now are looked at, and the one in hand") {
  Hand hand = hand_of({{40, 70}, {5, 60}, {45, 60}, {30, 1}, {std::nullopt, 2}});
  CHECK(cheapest_now(hand, 2, std::nullopt) == std::vector<std::size_t>{0, 2});
  CHECK(cheapest_now(hand, 2, 4) == std::vector<std::size_t>{2, 4});
  CHECK(cheapest_now(hand, 9, 1) == std::vector<std::size_t>{0, 1, 2, 3, 4});
}
