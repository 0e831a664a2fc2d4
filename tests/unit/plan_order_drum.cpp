#include <doctest/doctest.h>

#include <algorithm>
#include <utility>

#include "base/random.hpp"
#include "plan/drum.hpp"
#include "plan/order.hpp"
#include "plan/trims.hpp"

// Without tolerance, against what is proven of drums.
namespace ballchange::plan {
namespace {

Hand random_hand(Random& random, std::size_t balls, Tenths period) {
  Hand hand;
  hand.period = period;
  const auto place = [&] { return static_cast<Tenths>(random.below(static_cast<std::uint64_t>(period))); };
  hand.allowance = place();
  for (std::size_t i = 0; i < balls; ++i) hand.balls.push_back({place(), place(), 0});
  return hand;
}

Tenths best_from(const Hand& hand, std::size_t first) {
  const std::size_t n = hand.balls.size();
  const std::vector<Tenths> least = least_totals(hand);
  return *std::min_element(least.begin() + static_cast<std::ptrdiff_t>(first * n),
                           least.begin() + static_cast<std::ptrdiff_t>(first * n + n));
}

}  // namespace

// H. S. Stone, S. H. Fuller, "On the near-optimality of the shortest-latency-time-first drum scheduling discipline",
// Communications of the ACM 16(6), 1973.
TEST_CASE("nearest next costs less than one repeat more than the best order from the same first ball") {
  const std::uint64_t seed = 1973;
  CAPTURE(seed);
  Random random(seed);
  Tenths most = 0;
  for (int row = 0; row < 400; ++row) {
    CAPTURE(row);
    const Hand hand = random_hand(random, 2 + random.below(12), row % 2 == 0 ? 12 : 27'600);
    for (std::size_t first = 0; first < hand.balls.size(); ++first) {
      const Tenths lost = nearest_next(hand, {first, false}).discard - best_from(hand, first);
      CHECK(lost >= 0);
      CHECK(lost < hand.period);
      if (hand.period == 27'600) most = std::max(most, lost);
    }
  }
  CHECK(most > 27'600 / 2);  // and it may come near
}

// Garfinkel 1977: see tests/checks/SOURCES.md.
TEST_CASE("for given first and last balls all totals are the same up to whole repeats") {
  const std::uint64_t seed = 1977;
  CAPTURE(seed);
  Random random(seed);
  for (int row = 0; row < 200; ++row) {
    CAPTURE(row);
    const Hand hand = random_hand(random, 3 + random.below(8), 27'600);
    const std::size_t n = hand.balls.size();
    const std::vector<Tenths> least = least_totals(hand);
    std::vector<Placed> balls;
    for (std::size_t i = 0; i < n; ++i) balls.push_back({i, false});
    for (std::size_t i = n - 1; i > 0; --i) std::swap(balls[i], balls[random.below(i + 1)]);
    const Tenths above = cut(hand, balls).discard - least[balls.front().ball * n + balls.back().ball];
    CHECK(above >= 0);
    CHECK(above % hand.period == 0);
  }
}

TEST_CASE("a thousand balls are put in order, each once, and nothing is cut less from any first ball") {
  const std::uint64_t seed = 1000;
  CAPTURE(seed);
  Random random(seed);
  const Hand hand = random_hand(random, 1000, 27'600);
  const Best best = best_order(hand);
  CHECK(best.proven);
  std::vector<bool> used(1000, false);
  for (const Placed& ball : best.order.balls) used[ball.ball] = true;
  CHECK(std::count(used.begin(), used.end(), true) == 1000);
  CHECK(best.order.discard <= nearest_next(hand).discard);
}

}  // namespace ballchange::plan
