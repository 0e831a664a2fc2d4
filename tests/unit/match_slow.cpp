#include "slow/agreement.hpp"

// The matcher against a slow one that walks through every way a reading can have come about.
namespace ballchange::slow {
namespace {

constexpr std::uint64_t seed = 20260301;

TEST_CASE("both matchers agree on random small readings") {
  constexpr std::uint64_t cases = 1000;
  CHECK(agree_on_random_readings(seed, cases) > cases * 3 / 4);
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
  CHECK(agree_on_every_reading(2) > 500);  // of 864
}

}  // namespace
}  // namespace ballchange::slow
