#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <utility>
#include <vector>

#include "plan/blocks.hpp"
#include "plan/estimate.hpp"
#include "plan/knots.hpp"
#include "plan/supply.hpp"
#include "plan/trims.hpp"
#include "plan/worked_out.hpp"

namespace ballchange::plan {
namespace {

// Beyond so many balls one more changes what a join costs by nothing that matters, and an order takes long.
constexpr int kMany = 60;

// As many works as a second or two allow; the chances told are means of chances, so that few works tell much.
std::int64_t works_for(Way way, int balls, const Work& work) {
  // For how many counts of balls the loss is looked at.
  const double counts = balls > kMany ? 1 : 2 + 10 * work.ball_plus_minus * std::sqrt(balls);
  const auto within = [&](double most, std::int64_t least, std::int64_t limit) {
    return std::clamp(static_cast<std::int64_t>(most / counts), least, limit);
  };
  if (way == Way::best_of_hand) return within(12e6 / (balls * balls), 32, 4000);
  // Shifts kept from the start take some three times as long to put in order.
  const double most = work.keep_from_start ? 8e3 : 24e3;
  if (balls > kMany) return within(most * kMany * kMany / std::pow(balls, 3), 8, 256);
  return within(most / balls, 8, 1000);
}

// An order need not be proven here: one that cuts a little more than the least makes the answer a little careful.
constexpr std::int64_t kSteps = 200'000;
// Every order only of so many balls as that takes less time for than bettering one.
Effort effort_of(const Work& work) { return {kSteps, work.keep_from_start ? 6U : 8U}; }
// Where balls are chosen as well, bettering one may take more balls than need be.
Effort effort_to_choose(const Work& work) { return {kSteps, work.keep_from_start ? 6U : 13U}; }

// What joining some balls loses.
struct Lost {
  Length in_all;    // so much is lost on the way to the end of the work
  Length to_reach;  // of the yarn, when they are only just enough
};

// Balls one after the other, their ends as they are; known ones first.
class Balls {
 public:
  Balls(const Work& work, const Supply& supply, Random& random)
      : work_(work), supply_(supply), random_(random), knots_(work.knots), hand_(joining_as(work)) {}

  // Of that many balls, what is lost whatever is trimmed between them: knots in the last one may lie beyond the work.
  Length lost_at_least(int balls) {
    while (static_cast<int>(hand_.balls.size()) < balls) add();
    return work_.allowance * (balls - 1) + in_knots_ - most_in_knots_;
  }

  // Of all of them, in the order that way finds.
  [[nodiscard]] Lost lost(Way way) const {
    return lost_by(way == Way::best_of_hand ? nearest_next(hand_) : best_order(hand_, effort_of(work_)).order);
  }

  // Of as few of them as are enough; nothing when all together are not.
  struct Some {
    int balls = 0;
    Length lost;
  };
  [[nodiscard]] std::optional<Some> enough_of_them(Way way) const {
    Hand hand = hand_;
    hand.need = tenths(work_.needed);
    for (std::size_t k = 0; k < hand.balls.size(); ++k) hand.balls[k].yarn = tenths(held_[k].yarn - held_[k].in_knots);
    const Order order = way == Way::best_of_hand ? nearest_next(hand) : best_order(hand, effort_to_choose(work_)).order;
    if (yarn_for_work(hand, order.balls, order.discard) < *hand.need) return std::nullopt;
    return Some{static_cast<int>(order.balls.size()), lost_by(order).in_all};
  }
  [[nodiscard]] Length yarn() const { return yarn_; }

 private:
  struct Knot {
    double at = 0;  // share of the ball that is worked before it
    Length lost;
  };
  struct Held {
    Length yarn, in_knots;
    std::vector<Knot> knots;  // as they come
  };

  [[nodiscard]] Lost lost_by(const Order& order) const {
    Length before = length(order.discard) + work_.allowance * static_cast<double>(order.joins.size());
    Length yarn;
    const Held& last = held_[order.balls.back().ball];
    for (const Placed& placed : order.balls) {
      const Held& one = held_[placed.ball];
      if (&one == &last) continue;
      before += one.in_knots;
      yarn += one.yarn;
    }
    const Length wanted = work_.needed - (yarn - before);  // of the last ball
    Length passed, in_work, to_reach = last.yarn;
    for (const Knot& knot : last.knots) {
      to_reach = std::min(to_reach, passed + last.yarn * (1 - knot.at));
      if (last.yarn * knot.at - passed < wanted) in_work += knot.lost;
      passed += knot.lost;
    }
    return {before + in_work, before + std::min(to_reach, passed)};
  }

  void add() {
    const std::size_t k = hand_.balls.size();
    const Supply::Yarn supplied = supply_.ball(static_cast<int>(k));
    Held held{supplied.mean + supplied.plus_minus * random_.normal(), {}, {}};
    const int knots = knots_.draw(random_);
    Ball ball;
    ball.start = tenths(work_.period * random_.uniform());
    // A knot breaks the repeat: from there on the ball is anywhere else on it.
    ball.finish = knots > 0 ? tenths(work_.period * random_.uniform()) : *ball.start + tenths(held.yarn);
    if (k < work_.on_hand.size()) {
      if (work_.on_hand[k].start) ball.start = tenths(*work_.on_hand[k].start);
      if (work_.on_hand[k].finish) ball.finish = tenths(*work_.on_hand[k].finish);
    }
    ball.start = wrapped(*ball.start, hand_.period);
    ball.finish = wrapped(*ball.finish, hand_.period);
    hand_.balls.push_back(ball);
    for (int q = 0; q < knots; ++q) {
      held.knots.push_back({random_.uniform(), trim_spread(work_).draw(random_) + work_.allowance});
    }
    std::sort(held.knots.begin(), held.knots.end(), [](const Knot& a, const Knot& b) { return a.at < b.at; });
    // Of a stretch shorter than what would be lost all of it goes, and the old end waits for the next.
    for (auto knot = held.knots.begin(); knot != held.knots.end(); ++knot) {
      const double until = std::next(knot) == held.knots.end() ? 1 : std::next(knot)->at;
      knot->lost = std::min(knot->lost, held.yarn * (until - knot->at));
      held.in_knots += knot->lost;
    }
    yarn_ += held.yarn;
    in_knots_ += held.in_knots;
    most_in_knots_ = std::max(most_in_knots_, held.in_knots);
    held_.push_back(std::move(held));
  }

  const Work& work_;
  const Supply& supply_;
  Random& random_;
  Knots knots_;
  Hand hand_;
  std::vector<Held> held_;  // as in the hand
  Length yarn_, in_knots_, most_in_knots_;
};

// One work: what n balls lose for each count that matters, and how much that was at the first that was enough.
struct OnePiece {
  std::vector<double> chances;  // that supply.fewest() + k balls are enough for such ends, whatever they hold
  Length waste;
};

OnePiece simulate_one(const Work& work, Way way, const Supply& supply, Random& random) {
  Balls balls(work, supply, random);
  OnePiece one;
  std::optional<Length> a_join;  // with many balls: what is lost at each
  bool enough = false;
  for (int count = supply.fewest(); !enough || one.chances.back() < 1 - 1e-6; ++count) {
    refuse_too_many(count);
    const Length at_least = balls.lost_at_least(count);
    const Reach reach = supply.reach(count);
    const bool hopeless = reach.chance(at_least) < 1e-6 && balls.yarn() - at_least < work.needed;
    Lost lost{at_least, at_least};
    if (!hopeless && a_join) {
      const Length in_joins = *a_join * (count - 1);
      lost = {at_least + in_joins, at_least + in_joins};
    }
    if (!hopeless && !a_join) lost = balls.lost(way);
    if (!hopeless && count > kMany) a_join = (lost.in_all - at_least) / (count - 1);
    one.chances.push_back(hopeless ? 0 : reach.chance(lost.to_reach));
    if (!enough && !hopeless && balls.yarn() - lost.to_reach >= work.needed) {
      enough = true;
      one.waste = lost.in_all;
    }
  }
  return one;
}

// The same with more balls on hand than it may take: which of them are used is chosen too, so that each count is enough
// or not by what these balls hold.
OnePiece simulate_with_plenty(const Work& work, Way way, const Supply& supply, Random& random) {
  Balls balls(work, supply, random);
  OnePiece one;
  auto count = static_cast<int>(work.on_hand.size());
  balls.lost_at_least(count);
  if (const auto some = balls.enough_of_them(way)) {
    one.chances.assign(static_cast<std::size_t>(std::max(0, some->balls - supply.fewest())), 0);
    one.chances.push_back(1);
    one.waste = some->lost;
    return one;
  }
  Lost lost;
  do {
    refuse_too_many(++count);
    balls.lost_at_least(count);
    lost = balls.lost(way);
  } while (balls.yarn() - lost.to_reach < work.needed);
  one.chances.assign(static_cast<std::size_t>(count - supply.fewest()), 0);
  one.chances.push_back(1);
  one.waste = lost.in_all;
  return one;
}

WayEstimate simulate_choosing(const Work& work, Way way, const Simulation& simulation) {
  const Supply supply(work);
  const int first = supply.fewest();
  const auto have = static_cast<int>(work.on_hand.size());
  const bool plenty = have > first;
  const std::int64_t pieces = works_for(way, std::max(have, first), work);
  const Simulated all = simulate_blocks(simulation, pieces, 16, [&](Random& random, std::int64_t count, Block& block) {
    for (std::int64_t k = 0; k < count; ++k) {
      const OnePiece one =
          plenty ? simulate_with_plenty(work, way, supply, random) : simulate_one(work, way, supply, random);
      block.waste.push_back(one.waste);
      add_chances(block.chances, one.chances, static_cast<double>(k), 1);
    }
  });
  return {way, false, pieces, all.waste, counted(first, all.chances), worth_telling(first, all.chances)};
}

}  // namespace

double chance_of_enough(const Work& work, int balls, const Simulation& simulation) {
  if (can_be_worked_out(work)) return chance_worked_out(work, balls);
  const WayEstimate told = simulate_as_they_come(work, simulation);
  // Counts left out before the first are hopeless, those behind the last all but sure.
  double chance = 0;
  for (const Enough& enough : told.enough) {
    if (enough.balls <= balls) chance = enough.chance;
  }
  return chance;
}

WayEstimate estimate(const Work& work, Way way, const Simulation& simulation) {
  if (way != Way::as_they_come) return simulate_choosing(work, way, simulation);
  return can_be_worked_out(work) ? worked_out(work) : simulate_as_they_come(work, simulation);
}

}  // namespace ballchange::plan
