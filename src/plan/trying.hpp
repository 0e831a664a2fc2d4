#pragma once
#include "plan/order.hpp"
#include "plan/tour.hpp"

// For what the other searches can't take: a running shift, or a choice of balls. Balls are moved, changed for others
// and turned, each order priced as a whole, until nothing saves any more.
namespace ballchange::plan {

// From `start`, with as many balls as it has. Enough yarn comes before least discard, and that before fewest turned.
[[nodiscard]] Sequence by_trying(const Hand& hand, const Trims& trims, Sequence start, Steps& steps);

// Greedy: the cheapest next ball, from the first lay told.
[[nodiscard]] Sequence greedy(const Trims& trims, std::size_t first, std::size_t balls);

[[nodiscard]] std::vector<Placed> placed(const Trims& trims, const Sequence& sequence);

}  // namespace ballchange::plan
