#include "stock/scale.hpp"

#include <algorithm>
#include <vector>

namespace ballchange::stock {

Mass scale_step(const State& state) {
  std::vector<Mass> steps;
  for (const BallState& ball : state.balls) {
    if (ball.mass) steps.push_back(ball.scale.value_or(step_of(*ball.mass)));
  }
  for (const Weighing& weighing : state.weighings) steps.push_back(weighing.scale.value_or(step_of(weighing.mass)));
  if (steps.empty()) return Mass::g(1);
  // A mass may come out even on a fine scale, but not most of them.
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>((steps.size() - 1) / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  return *middle;
}

std::optional<Length> yarn_in_a_gram(const State& state, const BallState& ball) {
  if (ball.mass && ball.length && *ball.mass > Mass()) return *ball.length / ball.mass->g();
  const Yarn& yarn = state.yarn;
  if (ball.plain || !yarn.ball_mass || !yarn.ball_length || *yarn.ball_mass <= Mass()) return std::nullopt;
  return *yarn.ball_length / yarn.ball_mass->g();
}

}  // namespace ballchange::stock
