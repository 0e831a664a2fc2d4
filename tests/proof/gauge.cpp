#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "fabric/next_size.hpp"
#include "fabric/swatch.hpp"

// The promise "give or take holds nine times in ten", on swatches simulated as swatch.hpp describes them.
namespace ballchange {
namespace {

constexpr double kHands = 0.02;

double evenly(Random& random, double half) { return (2 * random.uniform() - 1) * half; }

// A swatch of true stitch width `width` (cm), counted over about so many cm, edges and tape read wrong.
Swatch simulated(Random& random, double mm, double width, double over) {
  const double own = width * std::exp(kHands * random.normal());
  const double tape = over + evenly(random, 0.25) + evenly(random, 0.25);
  const double count = over / own + evenly(random, 0.5) + evenly(random, 0.5);
  return {mm, Counted{count, Length::cm(tape)}, {}, {}};
}

TEST_CASE("the gauge lies within its give or take nine times in ten") {
  constexpr std::uint64_t seed = 20261126;
  constexpr int works = 20'000;
  for (const int swatches : {1, 2, 3, 6}) {
    for (const double over : {8.0, 15.0, 30.0}) {
      Random random(seed);
      int held = 0;
      for (int k = 0; k < works; ++k) {
        const double width = 0.3 + 0.4 * random.uniform();
        std::vector<Swatch> some;
        for (int n = 0; n < swatches; ++n) some.push_back(simulated(random, 4, width, over));
        const GaugeMean found = *gauges(some)[0].stitch;
        held += std::abs(found.mean.cm() - width) <= found.give_or_take().cm() ? 1 : 0;
      }
      CAPTURE(seed);
      CAPTURE(swatches);
      CAPTURE(over);
      CHECK(held > 0.88 * works);
      CHECK(held < 0.93 * works);
    }
  }
}

TEST_CASE("what the next size is expected to give lies within its give or take nine times in ten") {
  constexpr std::uint64_t seed = 20261127;
  constexpr int works = 20'000;
  for (const bool two_sizes : {false, true}) {
    Random random(seed);
    int held = 0;
    int counted = 0;
    for (int k = 0; k < works; ++k) {
      // Hands whose stitches follow the size by 0.5, give or take 0.25.
      const double slope = std::max(0.05, 0.5 + 0.25 * random.normal());
      const auto width = [&](double mm) { return 0.45 * std::pow(mm / 4, slope); };
      std::vector<Swatch> some{simulated(random, 4, width(4), 15)};
      if (two_sizes) some.push_back(simulated(random, 5, width(5), 15));
      const double wanted = width(4) * (0.88 + 0.3 * random.uniform());
      const NextSize next = next_size(gauges(some), Tool::hook, {Length::cm(wanted), {}});
      const GaugeMean expected = *next.best->stitch;
      held += std::abs(expected.mean.cm() - width(next.best->size.mm)) <= expected.give_or_take().cm() ? 1 : 0;
      ++counted;
    }
    CAPTURE(seed);
    CAPTURE(two_sizes);
    CAPTURE(held);
    CHECK(held > 0.87 * counted);
    CHECK(held < 0.95 * counted);
  }
}

}  // namespace
}  // namespace ballchange
