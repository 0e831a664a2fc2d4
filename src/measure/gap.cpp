#include "measure/gap.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace ballchange::measuring {
namespace {

constexpr std::size_t steps = 128;

using Density = std::vector<double>;  // at the middle of each step

Density of_any_length(const Lore& lore, double from, double step) {
  Density density(steps);
  for (std::size_t n = 0; n < steps; ++n) {
    density[n] = std::exp(lore.any_length(from + (static_cast<double>(n) + 0.5) * step));
  }
  return density;
}

// Of the sum of both; half a step short, which many steps make little of.
Density sum_of(const Density& a, const Density& b, double step) {
  Density sum(steps);
  for (std::size_t n = 0; n < steps; ++n) {
    for (std::size_t k = 0; k <= n; ++k) sum[n] += a[k] * b[n - k] * step;
  }
  return sum;
}

}  // namespace

double more_lies_there(const Gap& gap, double length, const Lore& lore) {
  const double unseen = length - gap.begun - gap.ended;
  if (unseen <= 0) return -1e300;
  const double step = unseen / steps;
  // One section that was not seen, or one and any number more: x = any + x * any.
  const Density any = of_any_length(lore, 0, step);
  Density between(steps);
  for (std::size_t n = 0; n < steps; ++n) {
    between[n] = any[n];
    for (std::size_t k = 0; k < n; ++k) between[n] += between[k] * any[n - 1 - k] * step;
  }
  const Density ends = sum_of(of_any_length(lore, gap.begun, step), of_any_length(lore, gap.ended, step), step);
  return std::log(sum_of(ends, between, step).back()) + lore.any_colour() - lore.any_length(length);
}

}  // namespace ballchange::measuring
