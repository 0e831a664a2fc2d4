#include "plan/trying.hpp"

#include <algorithm>
#include <utility>

#include "plan/kept.hpp"

namespace ballchange::plan {
namespace {

std::ptrdiff_t turned(const Trims& trims, const Sequence& sequence) {
  return trims.turning() ? std::count_if(sequence.begin(), sequence.end(),
                                         [&](std::size_t lay) { return trims.placed(lay).turned; })
                         : 0;
}

class Trying {
 public:
  Trying(const Hand& hand, const Trims& trims, Sequence start, Steps& steps)
      : hand_(hand), trims_(trims), steps_(steps), best_(std::move(start)), cost_(price(best_, 2 * never)) {}

  Sequence run() {
    while (!steps_.out() && (move_one() || change_one() || turn_some())) {
    }
    return best_;
  }

 private:
  // Discard, and far above any of them what is lacking for the work.
  Tenths price(const Sequence& sequence, Tenths enough) {
    steps_.take(sequence.size() * 16);
    const std::vector<Placed> balls = placed(trims_, sequence);
    const Tenths discard = hand_.keep_from_start ? kept_discard(hand_, balls, enough) : plan::cost(trims_, sequence);
    if (!hand_.need || discard >= never) return discard;
    const Tenths lack = *hand_.need - yarn_for_work(hand_, balls, discard);
    return lack > 0 ? never / 2 + lack : discard;
  }

  // Of two that cost the same the one that turns fewer.
  bool take(Sequence& candidate) {
    const bool fewer = turned(trims_, candidate) < turned(trims_, best_);
    const Tenths cost = price(candidate, fewer ? cost_ + 1 : cost_);
    if (cost > cost_ || (cost == cost_ && !fewer)) return false;
    cost_ = cost;
    best_.swap(candidate);
    return true;
  }

  bool move_one() {
    const std::size_t n = best_.size();
    for (std::size_t from = 0; from < n; ++from)
      for (std::size_t to = 0; to < n && !steps_.out(); ++to) {
        if (to == from) continue;
        Sequence candidate = best_;
        candidate.erase(candidate.begin() + static_cast<std::ptrdiff_t>(from));
        candidate.insert(candidate.begin() + static_cast<std::ptrdiff_t>(to), best_[from]);
        if (take(candidate)) return true;
      }
    return false;
  }

  bool change_one() {
    std::vector<char> used(hand_.balls.size(), 0);
    for (const std::size_t lay : best_) used[trims_.ball_of(lay)] = 1;
    for (std::size_t at = 0; at < best_.size(); ++at)
      for (std::size_t lay = 0; lay < trims_.lays() && !steps_.out(); ++lay) {
        if (used[trims_.ball_of(lay)]) continue;
        Sequence candidate = best_;
        candidate[at] = lay;
        if (take(candidate)) return true;
      }
    // Two of the order change places: what moving one at a time may have to make worse first.
    for (std::size_t a = 0; a < best_.size(); ++a)
      for (std::size_t b = a + 2; b < best_.size() && !steps_.out(); ++b) {
        Sequence candidate = best_;
        std::swap(candidate[a], candidate[b]);
        if (take(candidate)) return true;
      }
    return false;
  }

  bool turn_some() {
    if (!trims_.turning()) return false;
    for (std::size_t from = 0; from < best_.size(); ++from)
      for (std::size_t to = from; to < best_.size() && !steps_.out(); ++to) {
        Sequence candidate = best_;
        std::reverse(candidate.begin() + static_cast<std::ptrdiff_t>(from),
                     candidate.begin() + static_cast<std::ptrdiff_t>(to + 1));
        for (std::size_t k = from; k <= to; ++k) candidate[k] = trims_.other(candidate[k]);
        if (take(candidate)) return true;
      }
    return false;
  }

  const Hand& hand_;
  const Trims& trims_;
  Steps& steps_;
  Sequence best_;
  Tenths cost_;
};

}  // namespace

std::vector<Placed> placed(const Trims& trims, const Sequence& sequence) {
  std::vector<Placed> balls;
  balls.reserve(sequence.size());
  for (const std::size_t lay : sequence) balls.push_back(trims.placed(lay));
  return balls;
}

Sequence greedy(const Trims& trims, std::size_t first, std::size_t balls) {
  Sequence sequence{first};
  std::vector<char> used(trims.lays(), 0);
  while (sequence.size() < balls) {
    used[sequence.back()] = used[trims.other(sequence.back())] = 1;
    std::size_t nearest = trims.rest();
    for (std::size_t lay = 0; lay < trims.lays(); ++lay)
      if (!used[lay] && (nearest == trims.rest() || trims(sequence.back(), lay) < trims(sequence.back(), nearest)))
        nearest = lay;
    sequence.push_back(nearest);
  }
  return sequence;
}

Sequence by_trying(const Hand& hand, const Trims& trims, Sequence start, Steps& steps) {
  return Trying(hand, trims, std::move(start), steps).run();
}

}  // namespace ballchange::plan
