#pragma once
#include <optional>

#include "base/length.hpp"

// Lengths that may not be known: nothing follows from nothing.
namespace ballchange {

using Maybe = std::optional<Length>;

[[nodiscard]] inline Maybe sum(Maybe a, Maybe b) { return a && b ? Maybe(*a + *b) : std::nullopt; }
[[nodiscard]] inline Maybe difference(Maybe a, Maybe b) { return a && b ? Maybe(*a - *b) : std::nullopt; }

}  // namespace ballchange
