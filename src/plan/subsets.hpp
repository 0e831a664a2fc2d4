#pragma once
#include <optional>

#include "plan/order.hpp"
#include "plan/trims.hpp"

// Every order at once, for a hand small enough: the least total for each set of balls and the one that lies last.
namespace ballchange::plan {

constexpr std::size_t most_for_subsets = 13;

// At most `most_for_subsets` balls: asserted. With `need`: of the fewest balls that are enough, those that cut least;
// nothing when all are not enough.
[[nodiscard]] std::optional<std::vector<Placed>> best_by_subsets(const Hand& hand, const Trims& trims);

}  // namespace ballchange::plan
