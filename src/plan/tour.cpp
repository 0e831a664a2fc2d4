#include "plan/tour.hpp"

#include <algorithm>
#include <utility>

#include "base/random.hpp"

namespace ballchange::plan {
namespace {

// Each node's cycle, numbered from 0; the number of cycles.
std::size_t cycles(const std::vector<std::size_t>& next, std::vector<std::size_t>& cycle_of) {
  const std::size_t unknown = next.size();
  cycle_of.assign(next.size(), unknown);
  std::size_t count = 0;
  for (std::size_t node = 0; node < next.size(); ++node) {
    if (cycle_of[node] != unknown) continue;
    for (std::size_t at = node; cycle_of[at] == unknown; at = next[at]) cycle_of[at] = count;
    ++count;
  }
  return count;
}

// One circle: rest first, then the sequence.
class Circle {
 public:
  Circle(const Trims& trims, Sequence& sequence, Steps& steps) : trims_(trims), sequence_(sequence), steps_(steps) {
    ring_.push_back(trims.rest());
    ring_.insert(ring_.end(), sequence.begin(), sequence.end());
  }

  void improve() {
    while (!steps_.out() && (move_stretch() || (trims_.turning() && turn_stretch()))) {
    }
    sequence_.assign(ring_.begin() + 1, ring_.end());
  }

 private:
  [[nodiscard]] std::size_t at(std::size_t k) const { return ring_[k == ring_.size() ? 0 : k]; }
  [[nodiscard]] Tenths join(std::size_t k) const { return trims_(ring_[k], at(k + 1)); }

  // Two neighbouring stretches change places: [i+1, j] and [j+1, k].
  bool move_stretch() {
    const std::size_t n = ring_.size();
    bool any = false;
    for (std::size_t i = 0; i + 2 < n && !steps_.out(); ++i) {
      for (std::size_t j = i + 1; j + 1 < n; ++j) {
        const Tenths before = join(i) + join(j);
        if (before == 0) continue;
        const std::size_t front = ring_[i + 1];
        const Tenths* const onto = &trims_.table()[ring_[i] * trims_.size()];
        const Tenths* const end = &trims_.table()[ring_[j] * trims_.size()];
        steps_.take(n - j);
        for (std::size_t k = j + 1; k < n; ++k) {
          const Tenths after = onto[ring_[j + 1]] + trims_(ring_[k], front) + end[at(k + 1)];
          if (after >= before + join(k)) continue;
          const auto begin = ring_.begin();
          std::rotate(begin + static_cast<std::ptrdiff_t>(i + 1), begin + static_cast<std::ptrdiff_t>(j + 1),
                      begin + static_cast<std::ptrdiff_t>(k + 1));
          any = true;
          break;
        }
        if (any) return true;
      }
    }
    return any;
  }

  // A stretch is worked backwards, each of its balls turned: its inner joins cost what they did.
  bool turn_stretch() {
    const std::size_t n = ring_.size();
    for (std::size_t i = 0; i + 1 < n; ++i) {
      steps_.take(n - i);
      for (std::size_t k = i + 1; k < n; ++k) {
        const Tenths before = join(i) + join(k);
        const Tenths after = trims_(ring_[i], trims_.other(ring_[k])) + trims_(trims_.other(ring_[i + 1]), at(k + 1));
        if (after >= before) continue;
        std::reverse(ring_.begin() + static_cast<std::ptrdiff_t>(i + 1),
                     ring_.begin() + static_cast<std::ptrdiff_t>(k + 1));
        for (std::size_t b = i + 1; b <= k; ++b) ring_[b] = trims_.other(ring_[b]);
        return true;
      }
    }
    return false;
  }

  const Trims& trims_;
  Sequence& sequence_;
  Steps& steps_;
  std::vector<std::size_t> ring_;
};

}  // namespace

Tenths cost(const Trims& trims, const Sequence& sequence) {
  Tenths sum = 0;
  std::size_t before = trims.rest();
  for (const std::size_t lay : sequence) {
    sum += trims(before, lay);
    before = lay;
  }
  return sum + trims(before, trims.rest());
}

Sequence patched(const Trims& trims, std::vector<std::size_t> next, Steps& steps) {
  const std::size_t n = next.size();
  std::vector<std::size_t> cycle_of;
  while (cycles(next, cycle_of) > 1) {
    steps.take(n * n / 2);
    Tenths least = 2 * never;
    std::size_t one = 0;
    std::size_t other = 0;
    for (std::size_t a = 0; a < n; ++a)
      for (std::size_t b = a + 1; b < n; ++b) {
        if (cycle_of[a] == cycle_of[b]) continue;
        const Tenths more = trims(a, next[b]) + trims(b, next[a]) - trims(a, next[a]) - trims(b, next[b]);
        if (more < least) {
          least = more;
          one = a;
          other = b;
        }
      }
    std::swap(next[one], next[other]);
  }
  Sequence sequence;
  for (std::size_t lay = next[trims.rest()]; lay != trims.rest(); lay = next[lay]) sequence.push_back(lay);
  return sequence;
}

void improve(const Trims& trims, Sequence& sequence, Steps& steps) { Circle(trims, sequence, steps).improve(); }

void improve_further(const Trims& trims, Sequence& sequence, Tenths bound, int rounds, Steps& steps) {
  Random random(20'250'101);
  Tenths least = cost(trims, sequence);
  const std::size_t n = sequence.size();
  for (int round = 0; round < rounds && least > bound && n >= 4 && !steps.out(); ++round) {
    Sequence shaken = sequence;
    // Two stretches change places, not neighbours: what a single move can't undo.
    std::size_t cuts[4];
    for (std::size_t& cut : cuts) cut = random.below(n + 1);
    std::sort(std::begin(cuts), std::end(cuts));
    const auto part = [&](std::size_t from, std::size_t to) {
      shaken.insert(shaken.end(), sequence.begin() + static_cast<std::ptrdiff_t>(from),
                    sequence.begin() + static_cast<std::ptrdiff_t>(to));
    };
    shaken.clear();
    part(0, cuts[0]);
    part(cuts[2], cuts[3]);
    part(cuts[1], cuts[2]);
    part(cuts[0], cuts[1]);
    part(cuts[3], n);
    improve(trims, shaken, steps);
    const Tenths now = cost(trims, shaken);
    if (now > least) continue;
    least = now;
    sequence = shaken;
  }
}

}  // namespace ballchange::plan
