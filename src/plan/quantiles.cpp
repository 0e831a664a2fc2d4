#include "plan/quantiles.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace ballchange::plan {

Waste Weighed::told() {
  if (all_.empty()) return {};
  std::sort(all_.begin(), all_.end(), [](const One& a, const One& b) { return a.length < b.length; });
  double whole = 0;
  Length sum;
  for (const One& one : all_) {
    whole += one.weight;
    sum += one.length * one.weight;
  }
  Waste told{sum / whole, all_.back().length, all_.back().length, all_.back().length};
  double below = 0;
  double last = 0;
  const auto reached = [&](double share) { return last < share * whole && below >= share * whole; };
  for (const One& one : all_) {
    last = below;
    below += one.weight;
    if (reached(0.50)) told.p50 = one.length;
    if (reached(0.90)) told.p90 = one.length;
    if (reached(0.95)) told.p95 = one.length;
  }
  return told;
}

Waste waste_of(std::vector<Length> all) {
  if (all.empty()) return {};
  Length sum;
  for (const Length one : all) sum += one;
  Waste told{sum / static_cast<double>(all.size()), {}, {}, {}};
  auto from = all.begin();
  const auto least_of = [&](double share) {
    const auto at = all.begin() + static_cast<std::ptrdiff_t>(std::ceil(share * static_cast<double>(all.size()))) - 1;
    std::nth_element(from, at, all.end());
    from = at;
    return *at;
  };
  told.p50 = least_of(0.50);
  told.p90 = least_of(0.90);
  told.p95 = least_of(0.95);
  return told;
}

}  // namespace ballchange::plan
