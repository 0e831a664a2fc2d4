#include "stock/plain.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "base/normal.hpp"
#include "stock/scale.hpp"

namespace ballchange::stock {
namespace {

double rows_done(const State& state, const std::optional<WorkPlace>& at) {
  if (!at) return 0;
  const double stitches = state.fabric.stitches.value_or(0);
  return at->row - 1 + (at->stitch && stitches > 0 ? *at->stitch / stitches : 1);
}

// What is over after so many rows more, in grams, and its standard deviation: both weighings' roundings.
struct Over {
  double mean = 0, plus_minus = 0;
};
Over over_after(const Plain& yarn, double rows) {
  const Plain::PerRow& rate = *yarn.per_row;
  const double part = rows / rate.rows;
  const double last = rounding_of(rate.last_step).g() * (1 + part);
  return {yarn.mass->g() - rows * rate.mass.g(), std::hypot(last, rounding_of(rate.first_step).g() * part)};
}

Mass step_weighed(const Weighing& weighing, const Doubts& doubts) {
  return weighing.scale.value_or(std::min(doubts.scale, step_of(weighing.mass)));
}

}  // namespace

Plain plain_of(const State& state, std::size_t index, const Doubts& doubts) {
  const BallState& ball = state.balls[index];
  assert(ball.plain);
  Plain told;
  told.mass = ball.mass;
  const Weighing* first = nullptr;
  const Weighing* last = nullptr;
  for (const Weighing& weighing : state.weighings) {
    if (weighing.ball != index) continue;
    // Over a rip its rows are no measure of what was taken from it.
    if (first == nullptr || first->rips != weighing.rips) first = &weighing;
    last = &weighing;
  }
  if (last != nullptr) told.mass = last->mass;
  // Weighed, and that says no length: what it held before says nothing of it now.
  if (last == nullptr || last->left) told.left = ball.left;
  if (told.left) {
    const bool weighed = last != nullptr && ball.mass && ball.mass->g() > 0;
    const double rounding = weighed ? rounding_of(step_weighed(*last, doubts)).g() *
                                          (ball.length.value_or(Length()) / 1_cm) / ball.mass->g()
                                    : 0;
    told.plus_minus = Length::cm(std::hypot(rounding, doubts.label * told.left->cm()));
  }
  if (first == last) return told;
  const double rows = rows_done(state, last->at) - rows_done(state, first->at);
  const double grams = first->mass.g() - last->mass.g();
  if (rows <= 0 || grams <= 0) return told;
  Plain::PerRow rate;
  rate.rows = rows;
  rate.mass = Mass::g(grams / rows);
  rate.left = last->mass.g() / rate.mass.g();
  rate.first_step = step_weighed(*first, doubts);
  rate.last_step = step_weighed(*last, doubts);
  const double share = last->mass.g() / grams;
  const double rounding =
      std::hypot(rounding_of(rate.last_step).g() * (1 + share), rounding_of(rate.first_step).g() * share) /
      rate.mass.g();
  rate.low = std::max(0.0, rate.left - kNineInTen * rounding);
  rate.high = rate.left + kNineInTen * rounding;
  told.per_row = rate;
  return told;
}

double chance_for(const Plain& yarn, Length needed) {
  assert(yarn.left);
  if (yarn.plus_minus <= Length()) return *yarn.left >= needed ? 1 : 0;
  return normal_cdf((*yarn.left - needed) / yarn.plus_minus);
}

double chance_for_rows(const Plain& yarn, double rows) {
  assert(yarn.per_row && yarn.mass);
  const Over over = over_after(yarn, rows);
  return normal_cdf(over.mean / over.plus_minus);
}

}  // namespace ballchange::stock
