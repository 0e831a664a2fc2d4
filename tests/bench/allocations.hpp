#pragma once
#include <cstddef>

// How often this program has asked for memory so far.
[[nodiscard]] std::size_t allocations();
