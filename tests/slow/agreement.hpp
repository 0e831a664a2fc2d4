#pragma once
#include <doctest/doctest.h>

#include "slow/compare.hpp"

// Both matchers on many readings; each returns on how many of them both held together.
namespace ballchange::slow {

inline std::uint64_t agree_on_random_readings(std::uint64_t seed, std::uint64_t cases) {
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
  return held_together;
}

// Every reading of a small yarn that has up to so many entries of a few lengths.
inline std::uint64_t agree_on_every_reading(std::size_t most_entries) {
  const Yarn yarn = small_yarn();
  Matcher matcher(yarn);
  std::uint64_t held_together = 0;
  every_reading(yarn, {std::nullopt, 4_cm, 11_cm, 24_cm}, most_entries, [&](const Reading& reading) {
    const Comparison comparison = compare(yarn, matcher, reading, {});
    held_together += comparison.held_together;
    REQUIRE(comparison.difference == "");
  });
  return held_together;
}

}  // namespace ballchange::slow
