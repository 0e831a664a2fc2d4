#pragma once
#include <cstddef>
#include <vector>

#include "plan/order.hpp"

// Kept from the start: the running shift r, all shifts of the joins so far together, stays within t as each of them
// does.
namespace ballchange::plan {

// A way of having cut the joins so far. One with (cost', r') makes one with (cost, r) needless when r' <= r and cost' +
// (r - r') <= cost: whatever is done from r can be done from r', cutting r - r' more in all where r' would fall below
// -t.
struct Label {
  Tenths cost = 0;
  Tenths running = 0;
  std::size_t turned = 0;  // balls so far: of two that cost the same the one with fewer is better
};

[[nodiscard]] constexpr bool makes_needless(const Label& one, const Label& other) {
  const Tenths at_most = one.cost + (other.running - one.running);
  return one.running <= other.running &&
         (at_most < other.cost || (at_most == other.cost && one.turned <= other.turned));
}

// The ways to cut one more join from running shift r, at most two: nothing, where that is allowed; or the least cut
// that ends at the bottom of the allowed range (as a rule: the one that comes back into step).
struct Ways {
  Joined way[2];
  std::size_t count = 0;
};
[[nodiscard]] Ways ways(const Hand& hand, std::optional<Tenths> between, Tenths running);

// Adds a label unless another makes it needless; drops those that it makes needless.
void keep(std::vector<Label>& labels, const Label& label);

// The balls in that order, cut least in all.
[[nodiscard]] Order cut_kept(const Hand& hand, const std::vector<Placed>& balls);
// Only how much that is; stops with `never` once it comes to `enough`.
[[nodiscard]] Tenths kept_discard(const Hand& hand, const std::vector<Placed>& balls, Tenths enough);

}  // namespace ballchange::plan
