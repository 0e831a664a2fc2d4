#include "slow/slow_order.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace ballchange::slow {
namespace {

using plan::Hand;
using plan::Tenths;

struct Laid {
  std::size_t ball = 0;
  Tenths start = 0, finish = 0;
};

Laid laid(const Hand& hand, std::size_t ball, bool turned) {
  const Tenths s = *hand.balls[ball].start;
  const Tenths e = *hand.balls[ball].finish;
  return turned ? Laid{ball, *hand.mirror - e, *hand.mirror - s} : Laid{ball, s, e};
}

// The shift that trims of x leave, nearest to 0.
Tenths shift_after(const Hand& hand, Tenths old_end, Tenths new_end, Tenths allowance, Tenths x) {
  Tenths shift = (new_end - old_end + x + allowance) % hand.period;
  while (shift < 0) shift += hand.period;
  return 2 * shift > hand.period ? shift - hand.period : shift;
}

bool within(Tenths a, Tenths limit) { return a <= limit && -a <= limit; }

// What of all that may be cut at one join the hand allows: trims -> shift.
std::vector<plan::Joined> allowed(const Hand& hand, Tenths old_end, Tenths new_end, Tenths allowance, Tenths before) {
  std::vector<plan::Joined> result;
  const Tenths t = hand.tolerance;
  for (Tenths x = 0; x < hand.period; ++x) {
    const Tenths shift = shift_after(hand, old_end, new_end, allowance, x);
    const bool both = within(shift, t) && (!hand.keep_from_start || within(before + shift, t));
    const Tenths wanted = hand.keep_from_start ? -before : 0;
    if (hand.sparing ? both : (shift == wanted || (x == 0 && both && shift >= 0))) result.push_back({x, shift, false});
    if (!result.empty() && (!hand.sparing || !hand.keep_from_start)) break;  // the least is taken
  }
  return result;
}

// Running shift -> least cut so far.
using Costs = std::map<Tenths, Tenths>;

Costs onward(const Hand& hand, const Costs& costs, Tenths old_end, Tenths new_end, Tenths allowance) {
  Costs after;
  for (const auto& [running, cost] : costs)
    for (const plan::Joined& joined : allowed(hand, old_end, new_end, allowance, running)) {
      const Tenths now = hand.keep_from_start ? running + joined.shift : 0;
      const auto [found, added] = after.try_emplace(now, cost + joined.discard);
      if (!added) found->second = std::min(found->second, cost + joined.discard);
    }
  return after;
}

Tenths least_of(const Costs& costs) {
  Tenths least = costs.begin()->second;
  for (const auto& [running, cost] : costs) least = std::min(least, cost);
  return least;
}

class Every {
 public:
  Every(const Hand& hand, std::size_t balls) : hand_(hand), balls_(balls), used_(hand.balls.size(), false) {}

  std::optional<LeastCut> least() {
    Costs costs{{hand_.begin && hand_.keep_from_start ? hand_.begin->out_of_step : 0, 0}};
    next(costs, hand_.begin ? hand_.begin->place : std::nullopt, hand_.begin ? hand_.begin->allowance : 0, {}, 0);
    return least_;
  }

 private:
  // `taken`: balls so far, and turned.
  void next(const Costs& costs, std::optional<Tenths> old_end, Tenths allowance, LeastCut taken, Tenths yarn) {
    if (taken.balls == balls_) {
      taken.discard = least_of(costs);
      if (hand_.need && yarn - taken.discard < *hand_.need) return;
      const bool less = !least_ || std::pair(taken.discard, taken.turned) < std::pair(least_->discard, least_->turned);
      if (less) least_ = taken;
      return;
    }
    ++taken.balls;
    for (std::size_t ball = 0; ball < used_.size(); ++ball) {
      if (used_[ball]) continue;
      used_[ball] = true;
      for (std::size_t turned = 0; turned < (hand_.mirror ? 2U : 1U); ++turned) {
        const Laid lies = laid(hand_, ball, turned == 1);
        const Tenths left = yarn + hand_.balls[ball].yarn - (old_end ? allowance : 0);
        next(old_end ? onward(hand_, costs, *old_end, lies.start, allowance) : costs, lies.finish, hand_.allowance,
             {taken.balls, 0, taken.turned + turned}, left);
      }
      used_[ball] = false;
    }
  }

  const Hand& hand_;
  std::size_t balls_;
  std::vector<bool> used_;
  std::optional<LeastCut> least_;
};

}  // namespace

std::optional<LeastCut> least_cut(const Hand& hand) {
  for (std::size_t balls = hand.need ? 1 : hand.balls.size(); balls <= hand.balls.size(); ++balls)
    if (const auto least = Every(hand, balls).least()) return least;
  return std::nullopt;
}

std::string wrong_with(const Hand& hand, const plan::Order& order) {
  std::vector<bool> used(hand.balls.size(), false);
  bool follows = hand.begin.has_value();
  Tenths old_end = follows ? *hand.begin->place : 0;
  Tenths allowance = hand.begin ? hand.begin->allowance : 0;
  Tenths running = hand.begin ? hand.begin->out_of_step : 0;
  Tenths sum = 0;
  if (order.joins.size() + 1 != order.balls.size()) return "joins and balls don't match";
  if (order.first.has_value() != hand.begin.has_value()) return "first join";
  for (std::size_t k = 0; k < order.balls.size(); ++k) {
    const plan::Placed& placed = order.balls[k];
    if (used[placed.ball]) return "a ball used twice";
    used[placed.ball] = true;
    const Laid lies = laid(hand, placed.ball, placed.turned);
    if (follows) {
      const plan::Joined& joined = k == 0 ? *order.first : order.joins[k - 1];
      const auto may = allowed(hand, old_end, lies.start, allowance, running);
      if (std::none_of(may.begin(), may.end(),
                       [&](const plan::Joined& m) { return m.discard == joined.discard && m.shift == joined.shift; }))
        return "join " + std::to_string(k) + " is not as asked";
      running += joined.shift;
      sum += joined.discard;
    }
    follows = true;
    old_end = lies.finish;
    allowance = hand.allowance;
  }
  if (sum != order.discard) return "the sum";
  if (!hand.need && std::count(used.begin(), used.end(), false) > 0) return "a ball left out";
  return "";
}

}  // namespace ballchange::slow
