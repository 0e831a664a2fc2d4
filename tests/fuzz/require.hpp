#pragma once
#include <cstdio>
#include <cstdlib>

namespace ballchange {

// What a fuzz target holds to; the fuzzer keeps the input that broke it.
inline void require(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

}  // namespace ballchange
