#pragma once
#include <optional>
#include <string>

#include "plan/order.hpp"

// The best order the slow, obvious way, for small repeats: every order, every way to turn the balls and, one tenth of a
// millimetre after the other, every trim of every join.
namespace ballchange::slow {

struct LeastCut {
  std::size_t balls = 0;
  plan::Tenths discard = 0;
  std::size_t turned = 0;  // the fewest, of all that cut no more
};

// Every end known. Nothing when `need` is more than all balls hold.
[[nodiscard]] std::optional<LeastCut> least_cut(const plan::Hand& hand);

// Follows an order join by join: what is cut and the shift it leaves must be what `hand` asks for, every ball used
// once. An empty string, or what is wrong.
[[nodiscard]] std::string wrong_with(const plan::Hand& hand, const plan::Order& order);

}  // namespace ballchange::slow
