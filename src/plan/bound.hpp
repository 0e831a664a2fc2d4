#pragma once
#include "plan/order.hpp"
#include "plan/trims.hpp"

// What no order can go below: each finish gets a start of another ball, each start one finish, at least cost, whether
// or not that makes one chain. Where balls may be turned any two ends may meet, and half the least assignment of ends
// to ends is that bound.
namespace ballchange::plan {

// For orders of `balls` of the hand's balls. Valid for those kept from the start too, when `trims` is for sparing use.
[[nodiscard]] Tenths joins_bound(const Hand& hand, const Trims& trims, std::size_t balls);

}  // namespace ballchange::plan
