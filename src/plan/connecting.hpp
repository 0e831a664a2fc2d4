#pragma once
#include "plan/assignment.hpp"

namespace ballchange::plan {

// The least, above the assignment, that it costs to connect its circles: an order leaves each of them, and each group
// of them that is connected already, at least once (M. Fischetti, P. Toth, Operations Research 37(2), 1989).
// `table`: as the assignment was made of.
[[nodiscard]] Tenths connecting_cost(const Assignment& a, const std::vector<Tenths>& table, std::size_t n);

}  // namespace ballchange::plan
