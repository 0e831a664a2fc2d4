#pragma once
#include "plan/order.hpp"
#include "plan/tour.hpp"

// Branch and bound for more balls than subsets can hold: the least assignment of finishes to starts is the bound; where
// it falls into several circles, one of their joins is given up in each branch (after Carpaneto, Dell'Amico, Toth, ACM
// TOMS 21(4), 1995).
//
// Where many balls finish just behind their own start, that bound is up to a whole repeat too low: near neighbours join
// in small circles that no cheap swap brings together. Then it is sharpened. With v as in order.hpp and k the part of v
// that is not cut, an order from first ball a to last ball b cuts, for any 0 <= l <= 1,
//   sum max(0, v - k) >= sum (max(0, v - k) - l v) + l V(a, b)
// where V(a, b) is the least sum of v over any such order (drum.hpp, finishes moved on by t). The right side is again
// an assignment once a is fixed, so there is one search for each first ball, with the l that bounds it best.
namespace ballchange::plan {

struct Searched {
  Sequence sequence;
  Tenths cost = never;
  Tenths bound = 0;  // equals cost when proven
};

// Any table of joins, by the assignment alone.
[[nodiscard]] Searched branch_and_bound(const Trims& trims, Steps& steps);

// Directional, every end known, all balls used, at least two, each join by itself: asserted.
[[nodiscard]] Searched branch_and_bound(const Hand& hand, const Trims& trims, Steps& steps);

}  // namespace ballchange::plan
