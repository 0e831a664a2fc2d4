#include "plan/worked_out.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <utility>

#include "plan/quantiles.hpp"
#include "plan/supply.hpp"

namespace ballchange::plan {
namespace {

constexpr double kSure = 1 - 1e-9;

// Chances of a sum of trims, at whole steps from 0.
using Chances = std::vector<double>;

// Lengths in steps so fine that `cells` of two make the largest trim. A trim that is cut falls on the middle of a cell,
// so that means are kept exactly.
class Grid {
 public:
  Grid(const TrimSpread& spread, int joins)
      : cells_(static_cast<std::size_t>(std::clamp(8192 / std::max(joins, 1), 32, 2048))),
        step_(spread.most / static_cast<double>(2 * cells_)),
        nothing_(spread.nothing) {}

  [[nodiscard]] Length length(std::size_t k) const { return step_ * static_cast<double>(k); }

  // One more join.
  [[nodiscard]] Chances joined(const Chances& before) const {
    if (nothing_ >= 1) return before;
    Chances after(before.size() + 2 * cells_ - 1, 0.0);
    const double each = (1 - nothing_) / static_cast<double>(cells_);
    for (std::size_t odd = 0; odd < 2; ++odd) {
      double window = 0;  // of before[j], j = k - 1, k - 3, ..., k - 2 cells + 1
      for (std::size_t k = odd; k < after.size(); k += 2) {
        if (k >= 1 && k - 1 < before.size()) window += before[k - 1];
        if (k >= 2 * cells_ + 1 && k - 2 * cells_ - 1 < before.size()) window -= before[k - 2 * cells_ - 1];
        after[k] = each * std::max(0.0, window);
      }
    }
    for (std::size_t k = 0; k < before.size(); ++k) after[k] += nothing_ * before[k];
    return after;
  }

 private:
  std::size_t cells_;
  Length step_;
  double nothing_;
};

// Each possible waste weighed with the chance that so many balls are enough for it.
Chances enough_for(const Chances& wasted, const Grid& grid, const Reach& reach, Length allowances) {
  Chances enough(wasted.size());
  for (std::size_t k = 0; k < wasted.size(); ++k) {
    enough[k] = wasted[k] > 0 ? wasted[k] * reach.chance(allowances + grid.length(k)) : 0;
  }
  return enough;
}

double sum(const Chances& chances) {
  double all = 0;
  for (const double chance : chances) all += chance;
  return std::min(all, 1.0);
}

// How many balls are surely enough, whatever is trimmed.
int surely(const Work& work, const Supply& supply) {
  const Length most = trim_spread(work).most + work.allowance;
  for (int balls = supply.fewest(); balls <= most_balls; ++balls) {
    if (supply.reach(balls).chance(most * (balls - 1)) > kSure) return balls;
  }
  return most_balls;
}

}  // namespace

bool can_be_worked_out(const Work& work) {
  const auto known = [](const OnHand& ball) { return ball.start || ball.finish; };
  return work.knots <= 0 && !work.keep_from_start && Supply(work).long_balls() &&
         std::none_of(work.on_hand.begin(), work.on_hand.end(), known);
}

WayEstimate worked_out(const Work& work) {
  assert(can_be_worked_out(work));
  const Supply supply(work);
  const int first = supply.fewest();
  const Grid grid(trim_spread(work), surely(work, supply));
  Chances wasted{1.0};
  Chances fewer_enough;  // the same with one ball fewer
  std::vector<double> chance;
  Weighed waste;
  for (int balls = 1; chance.empty() || chance.back() < kSure; ++balls) {
    refuse_too_many(balls);
    if (balls > 1) wasted = grid.joined(wasted);
    if (balls < first) continue;
    const Length allowances = work.allowance * (balls - 1);
    Chances enough = enough_for(wasted, grid, supply.reach(balls), allowances);
    chance.push_back(sum(enough));
    // Whoever had enough a ball earlier made no join more.
    if (!fewer_enough.empty()) fewer_enough = grid.joined(fewer_enough);
    for (std::size_t k = 0; k < enough.size(); ++k) {
      const double earlier = k < fewer_enough.size() ? fewer_enough[k] : 0;
      if (enough[k] > earlier) waste.add(allowances + grid.length(k), enough[k] - earlier);
    }
    fewer_enough = std::move(enough);
  }
  return {Way::as_they_come, true, 0, waste.told(), counted(first, chance), worth_telling(first, chance)};
}

double chance_worked_out(const Work& work, int balls) {
  assert(can_be_worked_out(work) && balls >= 1);
  const int joins = balls - 1;
  const Grid grid(trim_spread(work), joins);
  Chances wasted{1.0};
  for (int k = 0; k < joins; ++k) wasted = grid.joined(wasted);
  return sum(enough_for(wasted, grid, Supply(work).reach(balls), work.allowance * joins));
}

}  // namespace ballchange::plan
