#include "plan/drum.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <tuple>
#include <utility>

#include "plan/trims.hpp"

namespace ballchange::plan {
namespace {

constexpr std::size_t none = static_cast<std::size_t>(-1);

// Where an arc begins (a finish) or ends (a start), running the way arcs run. At ties a finish comes first, so that a
// join that cuts nothing is an arc of no length and not of a whole turn.
struct Event {
  Tenths at = 0;  // in [0, R)
  bool closes = false;
  std::size_t ball = 0;  // for a finish, `balls` stands for what the first ball follows
};

struct Chains {
  void part(std::size_t n) {
    of.resize(n);
    std::iota(of.begin(), of.end(), std::size_t{0});
  }
  std::size_t root(std::size_t i) {
    while (of[i] != i) i = of[i] = of[of[i]];
    return i;
  }
  bool unite(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    of[a] = b;
    return a != b;
  }
  std::vector<std::size_t> of;
};

// A first ball (`none` with a Begin: any) and a last one, and the least total of their joins.
struct Pair {
  Tenths total = 0;
  std::size_t first = none;
  std::size_t last = none;
};

class Drum {
 public:
  explicit Drum(const Hand& hand) : hand_(hand), balls_(hand.balls.size()), begun_(hand.begin.has_value()) {
    const Tenths R = hand.period;
    for (std::size_t i = 0; i < balls_; ++i) {
      events_.push_back({wrapped(hand.allowance - *hand.balls[i].finish, R), false, i});
      events_.push_back({wrapped(-*hand.balls[i].start, R), true, i});
    }
    if (begun_) events_.push_back({wrapped(hand.begin->allowance - *hand.begin->place, R), false, balls_});
    std::sort(events_.begin(), events_.end(), [](const Event& a, const Event& b) {
      return std::tie(a.at, a.closes, a.ball) < std::tie(b.at, b.closes, b.ball);
    });
    rank_.assign(2 * (balls_ + 1), 0);
    for (std::size_t k = 0; k < events_.size(); ++k) rank_[key(events_[k])] = k;
    count();
  }

  std::vector<Tenths> least_totals() {
    std::vector<Tenths> least((begun_ ? 1 : balls_) * balls_, never);
    for (const Pair& pair : totals())
      least[(begun_ ? 0 : pair.first * balls_) + pair.last] = pair.total + (chain(pair, 0) ? 0 : hand_.period);
    return least;
  }

  std::vector<std::size_t> best() {
    std::vector<Pair> pairs = totals();
    std::sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) {
      return std::tie(a.total, a.first, a.last) < std::tie(b.total, b.first, b.last);
    });
    const Pair least = pairs.front();
    for (const Pair& pair : pairs) {
      if (pair.total >= least.total + hand_.period) break;
      if (chain(pair, 0)) return walk(pair);
    }
    [[maybe_unused]] const bool all = chain(least, 1);
    assert(all);
    return walk(least);
  }

 private:
  static std::size_t key(const Event& event) { return 2 * event.ball + (event.closes ? 1 : 0); }

  // Arcs over the stretch after each event, counted as if the point before the first had none; least of them over any
  // run of events by doubling.
  void count() {
    const std::size_t n = events_.size();
    int over = 0;
    least_.emplace_back();
    for (std::size_t k = 0; k < n; ++k) {
      over += events_[k].closes ? -1 : 1;
      least_[0].push_back(over);
      from_first_.push_back(events_[k].at - events_[0].at);
      const Tenths next = k + 1 < n ? events_[k + 1].at : events_[0].at + hand_.period;
      weighted_ += over * (next - events_[k].at);
    }
    from_first_.push_back(hand_.period);
    for (std::size_t step = 1; 2 * step <= n; step *= 2) {
      const std::vector<int>& before = least_.back();
      std::vector<int> row(n - 2 * step + 1);
      for (std::size_t k = 0; k < row.size(); ++k) row[k] = std::min(before[k], before[k + step]);
      least_.push_back(std::move(row));
    }
  }

  // Over the stretches after events a .. b - 1; a large number when there is none.
  [[nodiscard]] int least(std::size_t a, std::size_t b) const {
    if (a >= b) return static_cast<int>(balls_) * 4 + 8;
    std::size_t level = 0;
    while ((std::size_t{2} << level) <= b - a) ++level;
    return std::min(least_[level][a], least_[level][b - (std::size_t{1} << level)]);
  }

  // Leaving out the finish of the last ball and the start of the first moves the count by one between them.
  [[nodiscard]] Tenths total(std::size_t first, std::size_t last) const {
    const std::size_t n = events_.size();
    const std::size_t without_finish = rank_[2 * last];
    int low = 0;
    Tenths sum = weighted_ - (from_first_[n] - from_first_[without_finish]);
    if (first == none) {
      low = std::min(least(0, without_finish), least(without_finish, n) - 1);
    } else {
      const std::size_t without_start = rank_[2 * first + 1];
      sum += from_first_[n] - from_first_[without_start];
      const std::size_t a = std::min(without_finish, without_start);
      const std::size_t b = std::max(without_finish, without_start);
      low = std::min({least(0, a), least(a, b) + (a == without_finish ? -1 : 1), least(b, n)});
    }
    return sum - low * hand_.period;
  }

  [[nodiscard]] std::vector<Pair> totals() const {
    std::vector<Pair> pairs;
    for (std::size_t last = 0; last < balls_; ++last) {
      if (begun_) {
        pairs.push_back({total(none, last), none, last});
        continue;
      }
      for (std::size_t first = 0; first < balls_; ++first)
        if (first != last || balls_ == 1) pairs.push_back({total(first, last), first, last});
    }
    return pairs;
  }

  // Fills next_ with joins at the level whose least count is `level`, chains brought together by free swaps. Whether
  // all balls are in one chain.
  bool chain(const Pair& pair, int level) {
    ring_.clear();
    for (const Event& event : events_)
      if (event.ball != (event.closes ? pair.first : pair.last)) ring_.push_back(event);
    next_.assign(balls_ + 1, none);
    if (ring_.empty()) return true;
    // Begin just after a point of least count, where exactly `level` arcs are open.
    int over = 0;
    int lowest = 0;
    std::size_t cut = 0;
    for (std::size_t k = 0; k < ring_.size(); ++k) {
      over += ring_[k].closes ? -1 : 1;
      if (over < lowest) {
        lowest = over;
        cut = k + 1;
      }
    }
    std::rotate(ring_.begin(), ring_.begin() + static_cast<std::ptrdiff_t>(cut % ring_.size()), ring_.end());
    first_in_first_out(level);
    return swapped(pair) == 1;
  }

  // Gives each finish in the ring its start: the start's index, counted on from ring_.size() where it lies a turn
  // later.
  void first_in_first_out(int level) {
    finishes_.clear();
    starts_.clear();
    for (std::size_t k = 0; k < ring_.size(); ++k) (ring_[k].closes ? starts_ : finishes_).push_back(k);
    target_.assign(ring_.size(), none);
    for (std::size_t k = 0; k < finishes_.size(); ++k) {
      const std::size_t to = k + static_cast<std::size_t>(level);
      target_[finishes_[k]] = starts_[to % starts_.size()] + (to / starts_.size()) * ring_.size();
    }
  }

  // Swaps targets wherever an arc begins under another of a different chain. The number of chains left.
  // Long: one walk round the ring, every step of which may change target, chains and reach.
  std::size_t swapped(const Pair& pair) {
    const std::vector<Event>& ring = ring_;
    std::vector<std::size_t>& target = target_;
    const std::size_t n = ring.size();
    const auto ball_at = [&](std::size_t event) { return ring[event % n].ball; };
    chains_.part(balls_ + 1);
    std::size_t left = balls_ + (begun_ ? 1 : 0);
    const auto unite = [&](std::size_t a, std::size_t b) {
      if (chains_.unite(a, b)) --left;
    };
    unite(pair.last, begun_ ? balls_ : pair.first);  // the way back, which costs nothing
    for (std::size_t k = 0; k < n; ++k)
      if (target[k] != none) unite(ring[k].ball, ball_at(target[k]));
    // The arc that reaches furthest: any arc open here is no longer than it. One that crosses the cut is open already.
    std::size_t furthest = none;
    std::size_t reach = 0;
    for (std::size_t k = 0; k < n; ++k)
      if (target[k] != none && target[k] >= n) {
        furthest = k;
        reach = target[k] - n;
      }
    for (std::size_t k = 0; k < n; ++k) {
      if (target[k] == none) continue;
      if (k == furthest) {
        reach = target[k];
        continue;
      }
      if (furthest != none && reach > k && chains_.root(ring[k].ball) != chains_.root(ring[furthest].ball)) {
        const std::size_t turn = target[furthest] - reach;
        const std::size_t mine = target[k];
        target[k] = reach;
        target[furthest] = mine + turn;
        unite(ring[k].ball, ring[furthest].ball);
        reach = mine;
      }
      if (furthest == none || target[k] > reach) {
        furthest = k;
        reach = target[k];
      }
    }
    for (std::size_t k = 0; k < n; ++k)
      if (target[k] != none) next_[ring[k].ball] = ball_at(target[k]);
    return left;
  }

  [[nodiscard]] std::vector<std::size_t> walk(const Pair& pair) const {
    std::vector<std::size_t> order;
    for (std::size_t at = begun_ ? next_[balls_] : pair.first; at != none; at = next_[at]) order.push_back(at);
    assert(order.size() == balls_);
    return order;
  }

  const Hand& hand_;
  std::size_t balls_;
  bool begun_;
  std::vector<Event> events_;
  std::vector<std::size_t> rank_;  // where a ball's finish (2 ball) and start (2 ball + 1) stand in events_
  std::vector<std::vector<int>> least_;
  std::vector<Tenths> from_first_;  // from the first event to each, and once round
  Tenths weighted_ = 0;             // sum of count times length
  std::vector<std::size_t> next_;
  // Of the pair at hand, kept between pairs: an estimate asks for thousands of them.
  std::vector<Event> ring_;
  std::vector<std::size_t> finishes_;
  std::vector<std::size_t> starts_;
  std::vector<std::size_t> target_;  // by event of the ring: the start a finish gets
  Chains chains_;
};

}  // namespace

std::vector<Tenths> least_totals(const Hand& hand) {
  assert(!hand.balls.empty() && !hand.mirror && !hand.need);
  return Drum(hand).least_totals();
}

std::vector<std::size_t> drum_order(const Hand& hand) {
  assert(!hand.balls.empty() && hand.tolerance == 0 && !hand.mirror && !hand.need);
  return Drum(hand).best();
}

}  // namespace ballchange::plan
