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

}  // namespace ballchange::stock
