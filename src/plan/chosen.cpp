#include <algorithm>
#include <cmath>
#include <cstddef>
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
  // To 13 balls every set of them is looked at, beyond that a tour is bettered (order.hpp).
  if (balls > kMany) return within(24e3 * kMany * kMany / std::pow(balls, 3), 8, 256);
  if (balls > 12) return within(24e3 / balls, 8, 256);
  return within(270e6 / (std::exp2(balls + 1) * (balls + 1) * (balls + 1)), 64, 1000);
}

// An order need not be proven here: one that cuts a little more than the least makes the answer a little careful.
constexpr Effort kEffort{200'000};

// Balls one after the other, their ends as they are; known ones first.
class Balls {
 public:
  Balls(const Work& work, const Supply& supply, Random& random)
      : work_(work), supply_(supply), random_(random), knots_(work.knots), hand_(joining_as(work)) {}

  // Of that many balls, what is lost whatever is trimmed between them.
  Length lost_at_least(int balls) {
    while (static_cast<int>(hand_.balls.size()) < balls) add();
    return work_.allowance * (balls - 1) + in_knots_[static_cast<std::size_t>(balls) - 1];
  }

  // What is lost in joining them all; that many were looked at before.
  [[nodiscard]] Length lost(Way way, int balls) {
    const Order order = way == Way::best_of_hand ? nearest_next(hand_) : best_order(hand_, kEffort).order;
    return length(order.discard) + lost_at_least(balls);
  }
  [[nodiscard]] Length yarn() const { return yarn_; }

 private:
  void add() {
    const std::size_t k = hand_.balls.size();
    const Supply::Yarn supplied = supply_.ball(static_cast<int>(k));
    const Length holds = supplied.mean + supplied.plus_minus * random_.normal();
    const int knots = knots_.draw(random_);
    Ball ball;
    ball.start = tenths(work_.period * random_.uniform());
    // A knot breaks the repeat: from there on the ball is anywhere else on it.
    ball.finish = knots > 0 ? tenths(work_.period * random_.uniform()) : *ball.start + tenths(holds);
    if (k < work_.on_hand.size()) {
      if (work_.on_hand[k].start) ball.start = tenths(*work_.on_hand[k].start);
      if (work_.on_hand[k].finish) ball.finish = tenths(*work_.on_hand[k].finish);
    }
    ball.start = wrapped(*ball.start, hand_.period);
    ball.finish = wrapped(*ball.finish, hand_.period);
    hand_.balls.push_back(ball);
    yarn_ += holds;
    Length in_knots = in_knots_.empty() ? Length() : in_knots_.back();
    for (int q = 0; q < knots; ++q) in_knots += trim_spread(work_).draw(random_) + work_.allowance;
    in_knots_.push_back(in_knots);
  }

  const Work& work_;
  const Supply& supply_;
  Random& random_;
  Knots knots_;
  Hand hand_;
  Length yarn_;
  std::vector<Length> in_knots_;
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
    Length lost = at_least;
    if (!hopeless && a_join) lost += *a_join * (count - 1);
    if (!hopeless && !a_join) lost = balls.lost(way, count);
    if (!hopeless && count > kMany) a_join = (lost - at_least) / (count - 1);
    one.chances.push_back(hopeless ? 0 : reach.chance(lost));
    if (!enough && !hopeless && balls.yarn() - lost >= work.needed) {
      enough = true;
      one.waste = lost;
    }
  }
  return one;
}

WayEstimate simulate_choosing(const Work& work, Way way, const Simulation& simulation) {
  const Supply supply(work);
  const int first = supply.fewest();
  const std::int64_t pieces = works_for(way, first, work);
  const Simulated all = simulate_blocks(simulation, pieces, 16, [&](Random& random, std::int64_t count, Block& block) {
    for (std::int64_t k = 0; k < count; ++k) {
      OnePiece one = simulate_one(work, way, supply, random);
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
