#pragma once
#include <array>
#include <cstdint>

// Random numbers that are the same on every machine and library.
namespace ballchange {

// xoshiro256** (Blackman and Vigna 2018), seeded through splitmix64.
class Random {
 public:
  explicit Random(std::uint64_t seed);
  std::uint64_t bits();
  double uniform();                      // [0, 1), 53 bits
  double normal();                       // N(0, 1), by inversion
  std::uint64_t below(std::uint64_t n);  // 0 .. n-1, unbiased; n > 0

 private:
  std::array<std::uint64_t, 4> state_;
};

}  // namespace ballchange
