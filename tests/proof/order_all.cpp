#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

#include "base/random.hpp"
#include "plan/branch.hpp"
#include "plan/drum.hpp"
#include "plan/order.hpp"
#include "plan/subsets.hpp"
#include "slow/slow_order.hpp"

// The searches against every order of up to 8 balls, and against each other to 13, by the thousand.
namespace ballchange::plan {
namespace {

// Repeats from a few tenths (many ties) to metres; finishes anywhere, or just behind the starts as balls of one length
// have them.
Hand random_hand(Random& random, std::size_t balls) {
  const Tenths periods[] = {9, 60, 2'000, 27'600};
  const Tenths period = periods[random.below(4)];
  const auto upto = [&](Tenths n) { return static_cast<Tenths>(random.below(static_cast<std::uint64_t>(n) + 1)); };
  Hand hand;
  hand.period = period;
  hand.allowance = upto(period - 1);
  hand.tolerance = random.below(4) == 0 ? 0 : upto(period / (random.below(2) == 0 ? 3 : 20));
  hand.sparing = random.below(2) == 0;
  if (random.below(3) == 0) hand.begin = Begin{upto(period - 1), random.below(2) == 0 ? 0 : hand.allowance, 0};
  const bool one_length = random.below(2) == 0;
  const Tenths behind = upto(period / 8);
  for (std::size_t i = 0; i < balls; ++i) {
    const Tenths s = upto(period - 1);
    hand.balls.push_back({s, one_length ? wrapped(s + hand.allowance + behind, period) : upto(period - 1), 0});
  }
  return hand;
}

Tenths least_of_all(const Hand& hand) {
  const Trims trims(hand);
  std::vector<std::size_t> order(hand.balls.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  Tenths least = never;
  do {
    Tenths sum = trims(trims.rest(), order[0]);
    for (std::size_t k = 1; k < order.size() && sum < least; ++k) sum += trims(order[k - 1], order[k]);
    least = std::min(least, sum);
  } while (std::next_permutation(order.begin(), order.end()));
  return least;
}

}  // namespace

TEST_CASE("eight balls, every order tried, 2,000 times") {
  const std::uint64_t seed = 8;
  CAPTURE(seed);
  Random random(seed);
  for (int row = 0; row < 2'000; ++row) {
    CAPTURE(row);
    const Hand hand = random_hand(random, 8);
    const Best best = best_order(hand);
    CHECK(best.proven);
    CHECK(best.order.discard == least_of_all(hand));
    CHECK(slow::wrong_with(hand, best.order) == "");
    Steps steps{Effort{}};
    CHECK(branch_and_bound(hand, Trims(hand), steps).cost == best.order.discard);
  }
}

TEST_CASE("nine to thirteen balls: branch and bound proves what the subsets give, 1,000 times") {
  const std::uint64_t seed = 13;
  CAPTURE(seed);
  Random random(seed);
  int unproven = 0;
  for (int row = 0; row < 1'000; ++row) {
    CAPTURE(row);
    const Hand hand = random_hand(random, 9 + random.below(5));
    const Trims trims(hand);
    const Tenths least = cut(hand, *best_by_subsets(hand, trims)).discard;
    Steps steps{Effort{100'000'000}};
    const Searched searched = branch_and_bound(hand, trims, steps);
    CHECK(searched.bound <= least);
    CHECK(searched.cost >= least);
    if (searched.bound < searched.cost) ++unproven;
    if (hand.tolerance > 0) continue;
    std::vector<Placed> balls;
    for (const std::size_t ball : drum_order(hand)) balls.push_back({ball, false});
    CHECK(cut(hand, balls).discard == least);
  }
  CHECK(unproven <= 10);
}

}  // namespace ballchange::plan
