#include <doctest/doctest.h>

#include "slow/compare.hpp"

// As the quick comparison of both matchers, on many more readings.
namespace ballchange::slow {
namespace {

constexpr std::uint64_t seed = 5000000;

TEST_CASE("both matchers agree on thousands of random small readings") {
  constexpr std::uint64_t cases = 12000;
  std::uint64_t held_together = 0;
  for (std::uint64_t number = 0; number < cases; ++number) {
    CAPTURE(seed);
    CAPTURE(number);
    Random random(seed + number);
    const Case c = random_case(random);
    Matcher matcher(c.yarn);
    const Comparison comparison = compare(c.yarn, matcher, c.reading, c.options);
    held_together += comparison.held_together;
    REQUIRE(comparison.difference == "");
  }
  CHECK(held_together > cases * 3 / 4);
}

TEST_CASE("both matchers agree on every reading of up to three entries of a small yarn") {
  const Yarn yarn = small_yarn();
  Matcher matcher(yarn);
  std::size_t held_together = 0;
  every_reading(yarn, {std::nullopt, 4_cm, 11_cm, 24_cm}, 3, [&](const Reading& reading) {
    const Comparison comparison = compare(yarn, matcher, reading, {});
    held_together += comparison.held_together;
    REQUIRE(comparison.difference == "");
  });
  CHECK(held_together > 4000);  // of 7,008
}

}  // namespace
}  // namespace ballchange::slow
