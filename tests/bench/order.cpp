#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "base/random.hpp"
#include "plan/order.hpp"

// How long the best order takes, and how often it is proven.
namespace {

using namespace ballchange;
using plan::Hand;
using plan::Tenths;

constexpr Tenths period = 27'600;
constexpr Tenths allowance = 800;

Tenths place(Random& random) { return static_cast<Tenths>(random.below(period)); }

// Ends anywhere.
Hand any_ends(std::uint64_t seed, std::size_t balls, Tenths tolerance) {
  Random random(seed);
  Hand hand;
  hand.period = period;
  hand.allowance = allowance;
  hand.tolerance = tolerance;
  for (std::size_t i = 0; i < balls; ++i) {
    const Tenths s = place(random);
    hand.balls.push_back({s, place(random), 0});
  }
  return hand;
}

// Balls all of one length; where one ends, the allowance taken off, lies from `nearest` to `furthest` past its own
// start.
Hand one_length(std::uint64_t seed, std::size_t balls, Tenths nearest, Tenths furthest) {
  Random random(seed);
  Hand hand = any_ends(seed, balls, period / 50);
  const Tenths past = nearest + static_cast<Tenths>(random.below(static_cast<std::uint64_t>(furthest - nearest)));
  for (plan::Ball& ball : hand.balls) ball.finish = plan::wrapped(*ball.start + allowance + past, period);
  return hand;
}

template <class Make>
void measure(const char* what, int cases, const Make& make) {
  for (const bool sparing : {false, true}) {
    std::vector<double> times;
    int proven = 0;
    int in_time = 0;
    double open = 0;
    for (int k = 0; k < cases; ++k) {
      Hand hand = make(static_cast<std::uint64_t>(1'000 + k));
      hand.sparing = sparing;
      const auto before = std::chrono::steady_clock::now();
      const plan::Best best = plan::best_order(hand, {800'000'000});
      times.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - before).count());
      proven += best.proven ? 1 : 0;
      in_time += best.proven && times.back() <= 1'000 ? 1 : 0;
      open += static_cast<double>(best.order.discard - best.bound) / static_cast<double>(period);
    }
    std::sort(times.begin(), times.end());
    fmt::print(
        "{:<44} {:<8} median {:8.1f} ms, longest {:8.1f} ms; proven {} of {}, {} within 1 s; open {:.3f} repeats\n",
        what, sparing ? "sparing" : "rule", times[times.size() / 2], times.back(), proven, cases, in_time,
        open / cases);
  }
}

}  // namespace

int main() {
  measure("12 balls", 50, [](std::uint64_t seed) { return any_ends(seed, 12, period / 50); });
  measure("13 balls", 50, [](std::uint64_t seed) { return any_ends(seed, 13, period / 50); });
  measure("200 balls", 20, [](std::uint64_t seed) { return any_ends(seed, 200, period / 50); });
  measure("200 balls, no tolerance", 20, [](std::uint64_t seed) { return any_ends(seed, 200, 0); });
  for (const std::size_t balls : {25U, 40U, 60U}) {
    const auto name = [&](const char* where) { return fmt::format("{} of one length, ends {}", balls, where); };
    measure(name("within 3 cm of starts").c_str(), 20,
            [&](std::uint64_t seed) { return one_length(seed, balls, -300, 300); });
    measure(name("3 to 18 cm past starts").c_str(), 20,
            [&](std::uint64_t seed) { return one_length(seed, balls, 300, 1'800); });
    measure(name("3 to 9 cm before starts").c_str(), 20,
            [&](std::uint64_t seed) { return one_length(seed, balls, -900, -300); });
  }
  return 0;
}
