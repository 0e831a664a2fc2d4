#pragma once
#include <cstddef>

// Limits that several parts of the program hold to.
namespace ballchange {

inline constexpr std::size_t kMostNameBytes = 200;  // of a name, in UTF-8
inline constexpr int kMostCounted = 1'000'000;      // rows, stitches, entries

}  // namespace ballchange
