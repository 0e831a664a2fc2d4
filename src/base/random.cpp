#include "base/random.hpp"

#include <cassert>

#include "base/normal.hpp"

namespace ballchange {

Random::Random(std::uint64_t seed) : state_{} {
  for (std::uint64_t& word : state_) {
    seed += 0x9e3779b97f4a7c15U;
    std::uint64_t z = seed;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    word = z ^ (z >> 31);
  }
}

double Random::normal() {
  // Half a step up keeps the quantile's argument inside (0, 1): 52 bits, so that the sum is exact.
  return normal_quantile((static_cast<double>(bits() >> 12) + 0.5) * 0x1.0p-52);
}

std::uint64_t Random::below(std::uint64_t n) {
  assert(n > 0);
  // The first 2^64 mod n values would make the small results likelier.
  const std::uint64_t unfair = (0 - n) % n;
  for (;;) {
    const std::uint64_t r = bits();
    if (r >= unfair) return r % n;
  }
}

}  // namespace ballchange
