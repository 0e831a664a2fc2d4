#include <doctest/doctest.h>

#include <algorithm>
#include <iterator>

#include "base/random.hpp"
#include "plan/branch.hpp"
#include "plan/drum.hpp"
#include "plan/order.hpp"
#include "plan/subsets.hpp"
#include "plan/trying.hpp"
#include "slow/slow_order.hpp"

// The searches against trying everything, and against each other.
namespace ballchange::plan {
namespace {

struct Kind {
  const char* what;
  bool sparing = false, kept = false, mirrored = false, begun = false, spare_balls = false;
  std::size_t balls = 6;
  int cases = 100;
};

Tenths upto(Random& random, Tenths n) { return static_cast<Tenths>(random.below(static_cast<std::uint64_t>(n) + 1)); }

// Small repeats, so that ties are common.
Hand random_hand(Random& random, const Kind& kind) {
  Hand hand;
  hand.period = 8 + upto(random, 20);
  hand.allowance = upto(random, hand.period + 3);
  hand.tolerance = random.below(3) == 0 ? 0 : upto(random, (hand.period - 1) / 2);
  hand.sparing = kind.sparing;
  hand.keep_from_start = kind.kept;
  if (kind.mirrored) hand.mirror = upto(random, hand.period - 1);
  if (kind.begun) {
    hand.begin = Begin{upto(random, hand.period - 1), 0, 0};
    if (random.below(2) == 0) hand.begin->allowance = hand.allowance;
    if (kind.kept) hand.begin->out_of_step = upto(random, 2 * hand.tolerance) - hand.tolerance;
  }
  const std::size_t n = 1 + random.below(kind.balls);
  const bool bunched = random.below(3) == 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Tenths s = upto(random, hand.period - 1);
    const Tenths e =
        bunched ? wrapped(s + hand.allowance + upto(random, 3), hand.period) : upto(random, hand.period - 1);
    hand.balls.push_back({s, e, 30 + upto(random, 40)});
  }
  if (kind.spare_balls) hand.need = upto(random, 60 * static_cast<Tenths>(n));
  return hand;
}

std::size_t turned(const Order& order) {
  return static_cast<std::size_t>(
      std::count_if(order.balls.begin(), order.balls.end(), [](const Placed& ball) { return ball.turned; }));
}

}  // namespace

TEST_CASE("no order cuts less than the best one, whatever is asked, nor turns fewer balls: every order tried") {
  const Kind kinds[] = {
      {"as a rule", false, false, false, false, false, 7, 500},
      {"sparing", true, false, false, false, false, 7, 500},
      {"begun", false, false, false, true, false, 6, 500},
      {"begun, sparing", true, false, false, true, false, 6, 500},
      {"turned", false, false, true, false, false, 4, 300},
      {"turned, begun, sparing", true, false, true, true, false, 4, 300},
      {"kept", false, true, false, false, false, 5, 400},
      {"kept, sparing", true, true, false, false, false, 5, 400},
      {"kept, begun", false, true, false, true, false, 5, 400},
      {"kept, begun, sparing", true, true, false, true, false, 5, 400},
      {"kept, turned", false, true, true, false, false, 4, 200},
      {"kept, turned, sparing", true, true, true, false, false, 3, 200},
      {"kept, turned, begun, sparing", true, true, true, true, false, 3, 200},
      {"more than needed, turned", false, false, true, false, true, 4, 300},
      {"more than needed", false, false, false, false, true, 5, 400},
      {"more than needed, begun, sparing", true, false, false, true, true, 5, 300},
      {"more than needed, kept, turned", true, true, true, false, true, 3, 200},
  };
  for (const Kind& kind : kinds) {
    CAPTURE(kind.what);
    const std::uint64_t seed = 4711;
    CAPTURE(seed);
    Random random(seed);
    for (int row = 0; row < kind.cases; ++row) {
      CAPTURE(row);
      const Hand hand = random_hand(random, kind);
      const Best best = best_order(hand);
      const auto least = slow::least_cut(hand);
      CHECK(best.proven);
      CHECK(best.bound == best.order.discard);
      CHECK(best.enough == least.has_value());
      CHECK(slow::wrong_with(hand, best.order) == "");
      if (!least) continue;
      CHECK(best.order.balls.size() == least->balls);
      CHECK(best.order.discard == least->discard);
      CHECK(turned(best.order) == least->turned);
    }
  }
}

TEST_CASE("without tolerance the drum's order is as good as the best of all subsets") {
  const std::uint64_t seed = 12;
  CAPTURE(seed);
  Random random(seed);
  for (int row = 0; row < 600; ++row) {
    CAPTURE(row);
    Hand hand = random_hand(random, {"", false, false, false, row % 2 == 1, false, 9, 0});
    hand.tolerance = 0;
    std::vector<Placed> balls;
    for (const std::size_t ball : drum_order(hand)) balls.push_back({ball, false});
    CHECK(cut(hand, balls).discard == cut(hand, *best_by_subsets(hand, Trims(hand))).discard);
  }
}

TEST_CASE("the least total from each first to each last ball, without tolerance") {
  const std::uint64_t seed = 13;
  CAPTURE(seed);
  Random random(seed);
  for (int row = 0; row < 300; ++row) {
    CAPTURE(row);
    Hand hand = random_hand(random, {"", false, false, false, false, false, 5, 0});
    hand.tolerance = 0;
    const std::size_t n = hand.balls.size();
    std::vector<Tenths> least(n * n, never);
    std::vector<std::size_t> order(n);
    for (std::size_t i = 0; i < n; ++i) order[i] = i;
    do {
      std::vector<Placed> balls;
      for (const std::size_t ball : order) balls.push_back({ball, false});
      Tenths& known = least[order.front() * n + order.back()];
      known = std::min(known, cut(hand, balls).discard);
    } while (std::next_permutation(order.begin(), order.end()));
    CHECK(least_totals(hand) == least);
  }
}

TEST_CASE("branch and bound agrees with the best of all subsets, and proves it") {
  const std::uint64_t seed = 14;
  CAPTURE(seed);
  Random random(seed);
  for (int row = 0; row < 400; ++row) {
    CAPTURE(row);
    const Hand hand = random_hand(random, {"", row % 2 == 1, false, false, row % 3 == 0, false, 10, 0});
    if (hand.balls.size() < 2) continue;
    const Trims trims(hand);
    Steps steps{Effort{}};
    const Searched searched = branch_and_bound(hand, trims, steps);
    CHECK(searched.bound == searched.cost);
    CHECK(searched.cost == cut(hand, *best_by_subsets(hand, trims)).discard);
    CHECK(searched.cost == cost(trims, searched.sequence));
  }
}

TEST_CASE("a bound told is never above the best, however little effort is allowed") {
  const std::uint64_t seed = 15;
  CAPTURE(seed);
  Random random(seed);
  for (int row = 0; row < 200; ++row) {
    CAPTURE(row);
    const Hand hand = random_hand(random, {"", row % 2 == 1, false, false, row % 3 == 0, false, 10, 0});
    if (hand.balls.size() < 2) continue;
    const Trims trims(hand);
    Steps steps{Effort{static_cast<std::int64_t>(random.below(20'000))}};
    const Searched searched = branch_and_bound(hand, trims, steps);
    const Tenths least = cut(hand, *best_by_subsets(hand, trims)).discard;
    CHECK(searched.bound <= least);
    CHECK(searched.cost >= least);
  }
}

TEST_CASE("more balls than subsets hold: kept, turned or chosen, the bound holds and the order is sound") {
  const Kind kinds[] = {{"turned", true, false, true},
                        {"kept", true, true},
                        {"kept as a rule", false, true},
                        {"kept, turned, begun", true, true, true, true},
                        {"chosen", true, false, false, false, true},
                        {"chosen, turned", false, false, true, true, true}};
  const std::uint64_t seed = 16;
  CAPTURE(seed);
  Random random(seed);
  for (const Kind& kind : kinds) {
    CAPTURE(kind.what);
    Hand hand = random_hand(random, kind);
    hand.period = 2000;
    hand.allowance = 80;
    hand.tolerance = 40;
    if (hand.begin) hand.begin = Begin{77, 80, kind.kept ? 5 : 0};
    hand.balls.clear();
    for (int i = 0; i < 16; ++i) hand.balls.push_back({upto(random, 1999), upto(random, 1999), 10'000});
    if (kind.spare_balls) hand.need = 95'000;
    const Best best = best_order(hand, {20'000'000});
    CHECK(best.enough);
    CHECK(best.bound <= best.order.discard);
    CHECK(best.proven == (best.bound == best.order.discard));
    CHECK(slow::wrong_with(hand, best.order) == "");
    CHECK(best.order.discard <= nearest_next(hand).discard);
    if (kind.spare_balls) CHECK(best.order.balls.size() == 10);
  }
}

// Twenty balls, so that not every order is looked at.
TEST_CASE("of twenty balls that may be turned none is turned for nothing") {
  const std::uint64_t seed = 19;
  CAPTURE(seed);
  Random random(seed);
  std::size_t all = 0;
  for (int row = 0; row < 12; ++row) {
    CAPTURE(row);
    Hand hand;
    hand.period = 2760;
    hand.allowance = 80;
    hand.tolerance = row % 2 == 0 ? 60 : 0;
    hand.keep_from_start = row % 4 >= 2;
    hand.mirror = 500;
    for (int i = 0; i < 20; ++i) hand.balls.push_back({upto(random, 2759), upto(random, 2759), 12'500});
    const Order order = best_order(hand).order;
    for (std::size_t k = 0; k < order.balls.size(); ++k) {
      if (!order.balls[k].turned) continue;
      std::vector<Placed> back = order.balls;
      back[k].turned = false;
      CHECK(cut(hand, back).discard > order.discard);
    }
    all += turned(order);
  }
  // Some eight a hand are turned where only the order told from its other end is compared.
  CHECK(all <= 6 * 12);
}

TEST_CASE("balls that are the same from both ends are not turned, however many") {
  Hand hand;
  hand.period = 2760;
  hand.allowance = 80;
  hand.tolerance = 20;
  hand.mirror = 500;
  Random random(20);
  for (int i = 0; i < 20; ++i) {
    const Tenths s = upto(random, 2759);
    hand.balls.push_back({s, wrapped(500 - s, 2760), 12'500});
  }
  CHECK(turned(best_order(hand).order) == 0);
}

TEST_CASE("kept from the start, more balls than subsets hold cost no more with a tolerance than without") {
  const std::uint64_t seed = 17;
  CAPTURE(seed);
  Random random(seed);
  for (int row = 0; row < 12; ++row) {
    CAPTURE(row);
    Hand hand;
    hand.period = 27'600;
    hand.allowance = 800;
    hand.keep_from_start = true;
    hand.sparing = row % 2 == 0;
    for (int i = 0; i < 30; ++i) hand.balls.push_back({upto(random, 27'599), upto(random, 27'599), 1'250'000});
    hand.tolerance = 0;
    const Tenths exact = best_order(hand).order.discard;
    for (const Tenths tolerance : {300, 600, 1200}) {
      CAPTURE(tolerance);
      hand.tolerance = tolerance;
      const Best best = best_order(hand, {200'000, 6U});
      CHECK(best.order.discard <= exact);
      CHECK(best.order.discard <= as_listed(hand).discard);
      CHECK(best.order.discard <= nearest_next(hand).discard);
      CHECK(slow::wrong_with(hand, best.order) == "");
    }
  }
}

TEST_CASE("what is told as proven among more balls than needed is the best, however little is tried") {
  const std::uint64_t seed = 18;
  CAPTURE(seed);
  Random random(seed);
  int proven = 0;
  for (int row = 0; row < 400; ++row) {
    CAPTURE(row);
    const Hand hand = random_hand(random, {"", row % 2 == 0, row % 3 == 0, false, row % 5 == 0, true, 9, 0});
    const Best found = best_order(hand, {200, 3U});
    if (!found.proven || !found.enough) continue;
    ++proven;
    const Best best = best_order(hand);
    CHECK(found.order.balls.size() == best.order.balls.size());
    CHECK(found.order.discard == best.order.discard);
  }
  MESSAGE(proven, " of 400 proven");
  CHECK(proven >= 40);
}

}  // namespace ballchange::plan
