#include "plan/order.hpp"

#include <algorithm>
#include <cassert>
#include <functional>
#include <optional>
#include <utility>

#include "plan/bound.hpp"
#include "plan/branch.hpp"
#include "plan/drum.hpp"
#include "plan/kept.hpp"
#include "plan/subsets.hpp"
#include "plan/trying.hpp"

namespace ballchange::plan {
namespace {

constexpr std::int64_t kStepsToTurn = 20'000'000;  // some hundredths of a second

bool ends_known(const Hand& hand) {
  return (!hand.begin || hand.begin->place) &&
         std::all_of(hand.balls.begin(), hand.balls.end(), [](const Ball& b) { return b.start && b.finish; });
}

Best proven(const Hand& hand, const std::vector<Placed>& balls) {
  Best best{cut(hand, balls), true, 0, true};
  best.bound = best.order.discard;
  return best;
}

Best bounded(const Hand& hand, const Trims& trims, const Sequence& sequence, Tenths bound) {
  Best best{cut(hand, placed(trims, sequence)), false, 0, true};
  best.bound = std::min(bound, best.order.discard);
  best.proven = best.bound == best.order.discard;
  return best;
}

// The cheapest of greedy orders from every first ball.
Sequence cheapest_greedy(const Trims& trims, std::size_t balls, Steps& steps) {
  Sequence best;
  for (std::size_t first = 0; first < trims.lays(); ++first) {
    steps.take(trims.lays() * balls);
    Sequence sequence = greedy(trims, first, balls);
    if (best.empty() || cost(trims, sequence) < cost(trims, best)) best = std::move(sequence);
    if (cost(trims, best) == 0) break;
  }
  return best;
}

// Balls may be turned, each join by itself.
Best either_way(const Hand& hand, const Trims& trims, Steps& steps) {
  const Tenths bound = joins_bound(hand, trims, hand.balls.size());
  Sequence sequence = cheapest_greedy(trims, hand.balls.size(), steps);
  improve(trims, sequence, steps);
  improve_further(trims, sequence, bound, 2000, steps);
  return bounded(hand, trims, sequence, bound);
}

Best each_join(const Hand& hand, const Trims& trims, Steps& steps) {
  if (trims.turning()) return either_way(hand, trims, steps);
  const Searched searched = ends_known(hand) ? branch_and_bound(hand, trims, steps) : branch_and_bound(trims, steps);
  return bounded(hand, trims, searched.sequence, searched.bound);
}

// Ball after ball, the one that cuts least with the shift that the joins before it left; the first may be told.
std::vector<Placed> nearest_kept(const Hand& hand, const Trims& trims, std::optional<Placed> first) {
  std::vector<Placed> balls;
  std::vector<bool> taken(hand.balls.size());
  Tenths running = hand.begin ? hand.begin->out_of_step : 0;
  const auto joined = [&](const Placed& next) {
    if (balls.empty() && !hand.begin) return Joined{0, 0, false};
    return ways(hand, balls.empty() ? between(hand, *hand.begin, next) : between(hand, balls.back(), next), running)
        .way[0];
  };
  const auto take = [&](const Placed& next) {
    running += joined(next).shift;
    taken[next.ball] = true;
    balls.push_back(next);
  };
  if (first) take(*first);
  while (balls.size() < hand.balls.size()) {
    std::optional<Placed> best;
    Joined least;
    for (std::size_t lay = 0; lay < trims.lays(); ++lay) {
      const Placed next = trims.placed(lay);
      if (taken[next.ball]) continue;
      const Joined one = joined(next);
      if (best && one.discard >= least.discard) continue;
      best = next;
      least = one;
    }
    take(*best);
  }
  return balls;
}

std::vector<Placed> as_they_stand(const Hand& hand) {
  std::vector<Placed> balls;
  for (std::size_t i = 0; i < hand.balls.size(); ++i) balls.push_back({i, false});
  return balls;
}

std::vector<Placed> drum_placed(const Hand& hand) {
  std::vector<Placed> balls;
  for (const std::size_t ball : drum_order(hand)) balls.push_back({ball, false});
  return balls;
}

// From the best order of joins that stand by themselves, which used sparingly is a bound as well; or from another that
// cuts less with the shifts kept: where much may be skipped at each join, little of it may be in all.
Best kept(const Hand& hand, const Trims& trims, const Effort& effort, Steps& steps) {
  Hand alone = hand;
  alone.keep_from_start = false;
  alone.sparing = true;
  const Best best = each_join(alone, Trims(alone), steps);
  std::vector<std::vector<Placed>> starts{best.order.balls, as_they_stand(hand)};
  starts.push_back(nearest_kept(hand, trims, hand.begin ? std::nullopt : std::optional(Placed{0, false})));
  if (!hand.mirror && ends_known(hand)) {
    Hand exact = alone;
    exact.tolerance = 0;
    starts.push_back(drum_placed(exact));
  }
  std::vector<Tenths> costs;
  for (const auto& balls : starts) costs.push_back(kept_discard(hand, balls, never));
  const auto cheapest = std::min_element(costs.begin(), costs.end()) - costs.begin();
  Sequence start;
  for (const Placed& ball : starts[static_cast<std::size_t>(cheapest)]) start.push_back(trims.lay_of(ball));
  Steps again(effort);
  return bounded(hand, trims, by_trying(hand, trims, start, again), best.bound);
}

// The most yarn that many balls can leave for the work.
Tenths most_yarn(const Hand& hand, std::size_t balls, Tenths bound) {
  std::vector<Tenths> yarn;
  for (const Ball& ball : hand.balls) yarn.push_back(ball.yarn);
  std::sort(yarn.begin(), yarn.end(), std::greater<>());
  Tenths most = hand.allowance - (hand.begin ? hand.begin->allowance : 0) - bound;
  for (std::size_t k = 0; k < balls; ++k) most += yarn[k] - hand.allowance;
  return most;
}

Best all(const Hand& hand, const Trims& trims, const Effort& effort, Steps& steps) {
  if (hand.tolerance == 0 && !hand.mirror && ends_known(hand)) {
    return proven(hand, drum_placed(hand));
  }
  if (hand.balls.size() <= effort.subsets) return proven(hand, *best_by_subsets(hand, trims));
  return hand.keep_from_start ? kept(hand, trims, effort, steps) : each_join(hand, trims, steps);
}

// More balls than subsets can hold, fewer needed: counts upward from what the bound lets hope for. The bound takes the
// longest, so that an order which cuts nothing is taken without.
Best some(const Hand& hand, const Trims& trims, const Effort& effort, Steps& steps) {
  Hand sparing = hand;
  sparing.sparing = sparing.sparing || hand.keep_from_start;
  const Trims floor(sparing);
  const auto enough = [&](const Best& best) {
    return yarn_for_work(hand, best.order.balls, best.order.discard) >= *hand.need;
  };
  bool missed = false;
  for (std::size_t balls = 1; balls < hand.balls.size(); ++balls) {
    if (most_yarn(hand, balls, 0) < *hand.need) continue;
    const Sequence start = cheapest_greedy(trims, balls, steps);
    Best best = bounded(hand, trims, start, 0);
    if (!best.proven || !enough(best)) {
      const Tenths bound = joins_bound(hand, floor, balls);
      if (most_yarn(hand, balls, bound) < *hand.need) continue;
      best = bounded(hand, trims, by_trying(hand, trims, start, steps), bound);
    }
    if (enough(best)) {
      best.proven = best.proven && !missed;
      return best;
    }
    missed = true;
  }
  Hand whole = hand;
  whole.need.reset();
  Best best = all(whole, trims, effort, steps);
  best.enough = enough(best);
  best.proven = best.proven && !(best.enough && missed);
  return best;
}

// As many of the first balls as are enough.
Order enough_of(const Hand& hand, const std::vector<Placed>& balls) {
  if (!hand.need) return cut(hand, balls);
  for (std::size_t count = 1; count < balls.size(); ++count) {
    const std::vector<Placed> first(balls.begin(), balls.begin() + static_cast<std::ptrdiff_t>(count));
    Order order = cut(hand, first);
    if (yarn_for_work(hand, first, order.discard) >= *hand.need) return order;
  }
  return cut(hand, balls);
}

Best found_order(const Hand& hand, const Effort& effort) {
  assert(!hand.balls.empty() && hand.period > 0 && hand.tolerance >= 0);
  assert(effort.subsets <= most_for_subsets);
  Steps steps(effort);
  const Trims trims(hand);
  if (!hand.need) return all(hand, trims, effort, steps);
  if (hand.balls.size() <= effort.subsets) {
    if (const auto balls = best_by_subsets(hand, trims)) return proven(hand, *balls);
  } else {
    return some(hand, trims, effort, steps);
  }
  Hand whole = hand;
  whole.need.reset();
  Best best = all(whole, trims, effort, steps);
  best.enough = yarn_for_work(hand, best.order.balls, best.order.discard) >= *hand.need;
  return best;
}

// What was found by trying may be dearer than what anybody would take: never told then.
Best none_cheaper(const Hand& hand, Best best) {
  if (best.proven) return best;
  for (Order& other : std::vector<Order>{as_listed(hand), nearest_next(hand)}) {
    if (other.balls.size() != best.order.balls.size() || other.discard >= best.order.discard) continue;
    if (hand.need && yarn_for_work(hand, other.balls, other.discard) < *hand.need) continue;
    best.order = std::move(other);
    // With a need, fewer balls may have been missed: nothing is proven then.
    best.proven = !hand.need && best.bound == best.order.discard;
  }
  return best;
}

std::ptrdiff_t turned(const Order& order) {
  return std::count_if(order.balls.begin(), order.balls.end(), [](const Placed& ball) { return ball.turned; });
}

// Where not every order was looked at, balls may be turned for nothing. An order told from the other end, with every
// ball turned about, costs the same where nothing comes before it; of the two the one that turns fewer, and from there
// what turns still fewer without cutting more.
Best fewer_turned(const Hand& hand, const Effort& effort, Best best) {
  if (!hand.mirror || hand.balls.size() <= effort.subsets || turned(best.order) == 0) return best;
  std::vector<Placed> about(best.order.balls.rbegin(), best.order.balls.rend());
  for (Placed& ball : about) ball.turned = !ball.turned;
  const Trims trims(hand);
  for (const bool other_end : {false, true}) {
    Sequence start;
    for (const Placed& ball : other_end ? about : best.order.balls) start.push_back(trims.lay_of(ball));
    Steps steps(Effort{kStepsToTurn});
    Order order = cut(hand, placed(trims, by_trying(hand, trims, start, steps)));
    const bool better = order.discard < best.order.discard ||
                        (order.discard == best.order.discard && turned(order) < turned(best.order));
    if (!better) continue;
    best.order = std::move(order);
    best.proven = best.proven || (!hand.need && best.bound == best.order.discard);
  }
  return best;
}

}  // namespace

Best best_order(const Hand& hand, const Effort& effort) {
  return fewer_turned(hand, effort, none_cheaper(hand, found_order(hand, effort)));
}

Order as_listed(const Hand& hand) { return enough_of(hand, as_they_stand(hand)); }

Order nearest_next(const Hand& hand) {
  if (!hand.begin) return nearest_next(hand, Placed{0, false});
  const Trims trims(hand);
  if (hand.keep_from_start) return enough_of(hand, nearest_kept(hand, trims, std::nullopt));
  std::size_t first = 0;
  for (std::size_t lay = 1; lay < trims.lays(); ++lay)
    if (trims(trims.rest(), lay) < trims(trims.rest(), first)) first = lay;
  return nearest_next(hand, trims.placed(first));
}

Order nearest_next(const Hand& hand, Placed first) {
  const Trims trims(hand);
  if (hand.keep_from_start) return enough_of(hand, nearest_kept(hand, trims, first));
  return enough_of(hand, placed(trims, greedy(trims, trims.lay_of(first), hand.balls.size())));
}

}  // namespace ballchange::plan
