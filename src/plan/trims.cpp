#include "plan/trims.hpp"

#include <algorithm>
#include <utility>

#include "plan/kept.hpp"

namespace ballchange::plan {
namespace {

std::optional<Tenths> start_of(const Hand& hand, const Placed& placed) {
  const Ball& ball = hand.balls[placed.ball];
  if (!placed.turned) return ball.start;
  if (!ball.finish) return std::nullopt;
  return wrapped(*hand.mirror - *ball.finish, hand.period);
}

}  // namespace

std::optional<Tenths> finish_of(const Hand& hand, const Placed& placed) {
  const Ball& ball = hand.balls[placed.ball];
  if (!placed.turned) return ball.finish;
  if (!ball.start) return std::nullopt;
  return wrapped(*hand.mirror - *ball.start, hand.period);
}

Joined trim(const Hand& hand, Tenths between) {
  const Tenths t = hand.tolerance;
  const Tenths v = wrapped(between + t, hand.period);
  const Tenths uncut = hand.sparing ? 2 * t : t;
  return {std::max<Tenths>(0, v - uncut), t - std::min(v, uncut), false};
}

Joined mean_trim(const Hand& hand) {
  const Tenths span = std::max<Tenths>(0, hand.period - (hand.sparing ? 2 : 1) * hand.tolerance);
  // In doubles: a repeat of many metres squared, in tenths of a millimetre, leaves no room to spare.
  const double mean = static_cast<double>(span) * static_cast<double>(span) / (2 * static_cast<double>(hand.period));
  return {std::llround(mean), 0, true};
}

Joined priced(const Hand& hand, std::optional<Tenths> between) {
  return between ? trim(hand, *between) : mean_trim(hand);
}

std::optional<Tenths> between(const Hand& hand, const Placed& from, const Placed& to) {
  const auto e = finish_of(hand, from);
  const auto s = start_of(hand, to);
  if (!e || !s) return std::nullopt;
  return *e - *s - hand.allowance;
}

std::optional<Tenths> between(const Hand& hand, const Begin& begin, const Placed& to) {
  const auto s = start_of(hand, to);
  if (!begin.place || !s) return std::nullopt;
  return *begin.place - *s - begin.allowance;
}

Trims::Trims(const Hand& hand) : turning_(hand.mirror.has_value()) {
  lays_ = hand.balls.size() * (turning_ ? 2 : 1);
  cost_.assign(size() * size(), never);
  for (std::size_t to = 0; to < lays_; ++to) {
    cost_[rest() * size() + to] = hand.begin ? priced(hand, between(hand, *hand.begin, placed(to))).discard : 0;
    cost_[to * size() + rest()] = 0;
    for (std::size_t from = 0; from < lays_; ++from) {
      if (ball_of(from) == ball_of(to)) continue;
      cost_[from * size() + to] = priced(hand, between(hand, placed(from), placed(to))).discard;
    }
  }
}

Trims::Trims(std::vector<Tenths> table) : cost_(std::move(table)) {
  while ((lays_ + 1) * (lays_ + 1) < cost_.size()) ++lays_;
}

Order cut(const Hand& hand, const std::vector<Placed>& balls) {
  if (hand.keep_from_start) return cut_kept(hand, balls);
  Order order{balls, std::nullopt, {}, 0};
  if (hand.begin && !balls.empty()) {
    order.first = priced(hand, between(hand, *hand.begin, balls.front()));
    order.discard += order.first->discard;
  }
  for (std::size_t k = 0; k + 1 < balls.size(); ++k) {
    order.joins.push_back(priced(hand, between(hand, balls[k], balls[k + 1])));
    order.discard += order.joins.back().discard;
  }
  return order;
}

Tenths yarn_for_work(const Hand& hand, const std::vector<Placed>& balls, Tenths discard) {
  Tenths yarn = -discard - (hand.begin ? hand.begin->allowance : 0) + hand.allowance;
  for (const Placed& placed : balls) yarn += hand.balls[placed.ball].yarn - hand.allowance;
  return yarn;
}

}  // namespace ballchange::plan
