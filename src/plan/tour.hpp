#pragma once
#include <vector>

#include "plan/trims.hpp"

// Orders made better step by step, and closed over "rest": before the first ball and after the last.
namespace ballchange::plan {

// Steps left; everything that takes long counts its steps here.
class Steps {
 public:
  explicit Steps(const Effort& effort) : left_(effort.steps) {}
  void take(std::size_t steps) { left_ -= static_cast<std::int64_t>(steps); }
  [[nodiscard]] bool out() const { return left_ <= 0; }
  [[nodiscard]] std::int64_t left() const { return left_; }

 private:
  std::int64_t left_;
};

// Lays in the order they are worked, rest left out.
using Sequence = std::vector<std::size_t>;

[[nodiscard]] Tenths cost(const Trims& trims, const Sequence& sequence);

// Which lay follows each (rest too) -> one circle, cycles joined where that costs least.
[[nodiscard]] Sequence patched(const Trims& trims, std::vector<std::size_t> next, Steps& steps);

// Moves stretches of the order elsewhere (with turning: also turns stretches round) as long as that saves something.
void improve(const Trims& trims, Sequence& sequence, Steps& steps);

// The same again from orders shaken up, `rounds` times; stops at `bound`.
void improve_further(const Trims& trims, Sequence& sequence, Tenths bound, int rounds, Steps& steps);

}  // namespace ballchange::plan
