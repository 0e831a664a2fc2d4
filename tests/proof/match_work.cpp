#include <doctest/doctest.h>

#include "base/random.hpp"
#include "match/settle.hpp"

// Repeats and readings as long as they may be: what they cost is counted in steps, not in time.
namespace ballchange {
namespace {

// Two look-alikes in turn, each a splash: hardly anything can be left out.
Yarn longest_repeat() {
  std::vector<Section> sections;
  for (std::size_t k = 0; k < 200; ++k) sections.push_back({k % 2, Length::cm(k % 3 == 0 ? 4 : 5), 1.5_cm});
  const std::vector<Colour> colours{{"moss", Shade{0x5d, 0x6b, 0x3a}}, {"fern", Shade{0x5f, 0x6d, 0x3d}}};
  return {.name = "Longest", .fibre = "", .ball_mass = {}, .ball_length = {}, .repeat = Repeat(colours, sections)};
}

Reading random_reading(std::uint64_t seed, std::size_t entries) {
  Random random(seed);
  Reading reading;
  for (std::size_t n = 0; n < entries; ++n) {
    const double length = 3 + static_cast<double>(random.below(9));
    reading.entries.push_back({n % 2, Length::cm(length), 1.0 / 12, n + 1});
  }
  return reading;
}

TEST_CASE("two hundred sections and a thousand entries end after a bounded number of steps") {
  constexpr std::uint64_t seed = 91;
  CAPTURE(seed);
  const Yarn yarn = longest_repeat();
  const Reading reading = random_reading(seed, 1000);
  Matcher matcher(yarn);
  const Placing placing = matcher.match(reading, {});
  const std::uint64_t once = matcher.work();
  CHECK(placing.verdict == Verdict::unsettled);
  // At most every entry from every change over as many sections as fit under one, some 30, both ways; and nothing like
  // it may be left out here.
  CHECK(once > 1'000'000);
  CHECK(once < 2ULL * 1000 * 200 * 30);
  // Which sections its open end may lie in is given up: one more such sum at most is begun before that is seen.
  matching::Observed observed;
  matching::observe(reading, {}, observed);
  matching::Posterior posterior(matcher.model());
  CHECK(matching::open_states(matcher.model(), observed, {}, posterior).empty());
  CHECK(posterior.work() < matching::most_work / 2 + 2 * once);
}

TEST_CASE("how much further to measure is given up in time where no length would do") {
  constexpr std::uint64_t seed = 91;
  CAPTURE(seed);
  const Yarn yarn = longest_repeat();
  const Reading reading = random_reading(seed, 2);
  Matcher matcher(yarn);
  CHECK(matcher.match(reading, {}).verdict == Verdict::unsettled);
  const std::uint64_t once = matcher.work();
  matching::Observed observed;
  matching::observe(reading, {}, observed);
  matching::Posterior posterior(matcher.model());
  const auto states = matching::open_states(matcher.model(), observed, {}, posterior);
  REQUIRE(!states.empty());
  CHECK(!matching::how_much_further(matcher, reading, observed, {}, states, matching::most_work));
  CHECK(matcher.work() - once > 1'000'000);
  // The last strand begun may be a whole repeat longer than the reading.
  CHECK(matcher.work() - once < matching::most_work + 100 * once);
}

TEST_CASE("distribution functions are counted, and hundreds of tiny sections end within the steps given") {
  std::vector<Section> sections;
  for (std::size_t k = 0; k < 200; ++k) sections.push_back({k % 2, 0.5_cm, 0.16_cm});
  const std::vector<Colour> colours{{"moss", std::nullopt}, {"rust", std::nullopt}};
  const Yarn yarn{.name = "Tiny", .fibre = "", .ball_mass = {}, .ball_length = {}, .repeat = Repeat(colours, sections)};
  Reading reading;
  for (std::size_t n = 0; n < 3; ++n) reading.entries.push_back({n % 2, 2_cm, 1.0 / 12, n + 1});
  Matcher matcher(yarn);
  CHECK(matcher.match(reading, {}).verdict == Verdict::unsettled);
  const std::uint64_t once = matcher.work();
  // From each of 200 changes at least one run from the open end and one to the loose end has such a function.
  CHECK(once > 200 * 10);
  matching::Observed observed;
  matching::observe(reading, {}, observed);
  matching::Posterior posterior(matcher.model());
  const auto states = matching::open_states(matcher.model(), observed, {}, posterior);
  CHECK(posterior.work() < matching::most_work / 2 + 2 * once);
  if (states.empty()) return;
  CHECK(!matching::how_much_further(matcher, reading, observed, {}, states, matching::most_work / 2));
  CHECK(matcher.work() - once < matching::most_work / 2 + 100 * once);
}

}  // namespace
}  // namespace ballchange
