#pragma once
#include <vector>

#include "plan/order.hpp"

// Without tolerance the best order is found in a moment, whatever the number of balls: the arithmetic of records on a
// rotating drum (Fuller 1972) and of patterned wallpaper (Garfinkel 1977).
//
// A join is an arc of the circle, from the finish (allowance taken off) back to the start. For a given first and last
// ball the number of arcs over each point is fixed up to a constant, and so is the total up to whole repeats. At the
// level where some point has none the total is least; two arcs that overlap can swap their starts free of cost, and so
// join the chains they belong to. If all balls come into one chain so, that total is the best; otherwise it is exactly
// R more, where every point has an arc over it.
namespace ballchange::plan {

// Every end known, directional, all balls used, at least one: asserted for both.
//
// For each first ball a and last ball b, at [a * n + b], the least sum of (e - s - m) mod R over the joins of any order
// from a to b; with a Begin, whose join counts too, at [b]. `never` where there is none.
[[nodiscard]] std::vector<Tenths> least_totals(const Hand& hand);

// Tolerance 0: asserted. The best order of the balls.
[[nodiscard]] std::vector<std::size_t> drum_order(const Hand& hand);

}  // namespace ballchange::plan
