#include "ledger/state.hpp"

#include <algorithm>

namespace ballchange {

bool State::counts(int entry) const {
  if (cancelled[static_cast<std::size_t>(entry) - 1]) return false;
  auto trouble =
      std::lower_bound(troubles.begin(), troubles.end(), entry, [](const Trouble& t, int n) { return t.entry < n; });
  for (; trouble != troubles.end() && trouble->entry == entry; ++trouble) {
    if (trouble->skipped) return false;
  }
  return true;
}

const BallState* State::find_ball(std::string_view id) const {
  const auto ball = std::find_if(balls.begin(), balls.end(), [&](const BallState& b) { return b.id == id; });
  return ball == balls.end() ? nullptr : &*ball;
}

bool State::begins_or_later(std::string_view ball) const {
  return std::any_of(joins.begin(), joins.end(), [&](const JoinState& join) {
    return join.at_least && !join.knot && join.new_ball == ball && join.lands();
  });
}

bool State::took_other_size() const {
  return std::any_of(gauge_changes.begin(), gauge_changes.end(),
                     [](const GaugeChange& change) { return change.other_size; });
}

}  // namespace ballchange
