#pragma once
#include <array>
#include <bit>
#include <cstdint>

// Random numbers that are the same on every machine and library.
namespace ballchange {

// xoshiro256** (Blackman and Vigna 2018), seeded through splitmix64.
class Random {
 public:
  explicit Random(std::uint64_t seed);
  std::uint64_t bits() {
    const std::uint64_t result = std::rotl(state_[1] * 5, 7) * 9;
    const std::uint64_t shifted = state_[1] << 17;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= shifted;
    state_[3] = std::rotl(state_[3], 45);
    return result;
  }
  double uniform() { return static_cast<double>(bits() >> 11) * 0x1.0p-53; }  // [0, 1), 53 bits
  double normal();                                                            // N(0, 1), by inversion
  std::uint64_t below(std::uint64_t n);                                       // 0 .. n-1, unbiased; n > 0

 private:
  std::array<std::uint64_t, 4> state_;
};

}  // namespace ballchange
