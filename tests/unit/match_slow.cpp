#include <doctest/doctest.h>

#include "slow/compare.hpp"

// The matcher against a slow one that walks through every way a reading can have come about.
namespace ballchange::slow {
namespace {

constexpr std::uint64_t seed = 20260301;

TEST_CASE("both matchers agree on random small readings") {
  constexpr std::uint64_t cases = 1000;
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

TEST_CASE("one matcher places many readings of a yarn as well as a fresh one") {
  Random random(seed);
  const Yarn yarn = random_yarn(random, {.fewest_sections = 5, .most_sections = 5});
  Matcher matcher(yarn);
  for (int number = 0; number < 200; ++number) {
    CAPTURE(seed);
    CAPTURE(number);
    const End end = random.below(2) == 0 ? End::new_end : End::old_end;
    const Strand strand(yarn, {}, end, random.below(5) == 0, random_hand(random, yarn.reckoning), random);
    const Reading reading = strand.read_entries(1 + random.below(4), random.below(2) == 0);
    REQUIRE(compare(yarn, matcher, reading, {}).difference == "");
  }
}

TEST_CASE("both matchers agree on every reading of two entries of a small yarn") {
  const Yarn yarn = small_yarn();
  Matcher matcher(yarn);
  std::size_t held_together = 0;
  every_reading(yarn, {std::nullopt, 4_cm, 11_cm, 24_cm}, 2, [&](const Reading& reading) {
    const Comparison comparison = compare(yarn, matcher, reading, {});
    held_together += comparison.held_together;
    REQUIRE(comparison.difference == "");
  });
  CHECK(held_together > 500);  // of 864
}

}  // namespace
}  // namespace ballchange::slow
