#include "base/random.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace ballchange {
namespace {

// xoshiro256** written out a second time, from the description in Blackman and Vigna, "Scrambled linear pseudorandom
// number generators" (2018), section 3: state after one step is the linear map of the old one.
std::uint64_t rotated(std::uint64_t x, unsigned k) { return (x << k) | (x >> (64 - k)); }
std::vector<std::uint64_t> obvious_stream(std::uint64_t seed, int count) {
  std::array<std::uint64_t, 4> s{};
  for (std::size_t i = 0; i < 4; ++i) {
    std::uint64_t z = seed + (i + 1) * 0x9e3779b97f4a7c15U;
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9U;
    z = (z ^ z >> 27) * 0x94d049bb133111ebU;
    s[i] = z ^ z >> 31;
  }
  std::vector<std::uint64_t> out;
  for (int n = 0; n < count; ++n) {
    out.push_back(rotated(s[1] * 5, 7) * 9);
    s = {s[0] ^ s[1] ^ s[3], s[0] ^ s[1] ^ s[2], s[2] ^ s[0] ^ (s[1] << 17), rotated(s[3] ^ s[1], 45)};
  }
  return out;
}

TEST_CASE("splitmix64 seeds the generator as published: first outputs for seed 1234567") {
  // Rosetta Code, "Pseudo-random numbers/Splitmix64": 6457827717110365317, 3203168211198807973, ...; the first output
  // of xoshiro256** scrambles the second of them.
  Random random(1234567);
  CHECK(random.bits() == rotated(3203168211198807973U * 5, 7) * 9);
}

TEST_CASE("the generator is xoshiro256**") {
  for (const std::uint64_t seed : {0U, 1U, 42U, 4'000'000'000U}) {
    CAPTURE(seed);
    Random random(seed);
    for (const std::uint64_t wanted : obvious_stream(seed, 100)) CHECK(random.bits() == wanted);
  }
}

TEST_CASE("uniform numbers lie in [0, 1) with the mean and variance of a uniform") {
  constexpr int n = 100'000;
  Random random(7);
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < n; ++i) {
    const double u = random.uniform();
    REQUIRE(u >= 0);
    REQUIRE(u < 1);
    sum += u;
    squares += (u - 0.5) * (u - 0.5);
  }
  CHECK(std::abs(sum / n - 0.5) < 5 / std::sqrt(12.0 * n));
  CHECK(std::abs(squares / n - 1.0 / 12) < 5 / std::sqrt(180.0 * n));
}

TEST_CASE("normal numbers have mean 0, variance 1 and no skew") {
  constexpr int n = 100'000;
  Random random(11);
  double sum = 0;
  double squares = 0;
  double cubes = 0;
  for (int i = 0; i < n; ++i) {
    const double z = random.normal();
    sum += z;
    squares += z * z;
    cubes += z * z * z;
  }
  CHECK(std::abs(sum / n) < 5 / std::sqrt(1.0 * n));
  CHECK(std::abs(squares / n - 1) < 5 * std::sqrt(2.0 / n));
  CHECK(std::abs(cubes / n) < 5 * std::sqrt(15.0 / n));
}

TEST_CASE("whole numbers below n all come equally often") {
  constexpr int n = 70'000;
  Random random(3);
  std::array<int, 7> counts{};
  for (int i = 0; i < n; ++i) ++counts.at(random.below(7));
  for (const int count : counts) CHECK(std::abs(count - n / 7) < 5 * std::sqrt(n / 7.0));
  CHECK(random.below(1) == 0);
}

}  // namespace
}  // namespace ballchange
