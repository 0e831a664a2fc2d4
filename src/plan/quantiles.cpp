#include "plan/quantiles.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace ballchange::plan {
namespace {

// Lengths counted by size, so that only the few around a quantile need be sorted.
class Shelves {
 public:
  explicit Shelves(const std::vector<Length>& all) : all_(all) {
    const auto [least, most] = std::minmax_element(all.begin(), all.end());
    least_ = *least;
    step_ = (*most - *least) / static_cast<double>(count_.size() - 1);
    for (const Length one : all) ++count_[shelf(one)];
  }

  // The least that this share of all do not exceed.
  [[nodiscard]] Length least_of(double share) const {
    auto rank = static_cast<std::size_t>(std::ceil(share * static_cast<double>(all_.size()))) - 1;
    std::size_t at = 0;
    while (rank >= count_[at]) rank -= count_[at++];
    std::vector<Length> near;
    for (const Length one : all_) {
      if (shelf(one) == at) near.push_back(one);
    }
    const auto found = near.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(near.begin(), found, near.end());
    return *found;
  }

 private:
  [[nodiscard]] std::size_t shelf(Length one) const {
    return step_ > Length() ? std::min(static_cast<std::size_t>((one - least_) / step_), count_.size() - 1) : 0;
  }

  const std::vector<Length>& all_;
  Length least_, step_;
  std::array<std::size_t, 1024> count_{};
};

}  // namespace

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

Waste waste_of(const std::vector<Length>& all) {
  if (all.empty()) return {};
  Length sum;
  for (const Length one : all) sum += one;
  const Shelves shelves(all);
  return {sum / static_cast<double>(all.size()), shelves.least_of(0.50), shelves.least_of(0.90),
          shelves.least_of(0.95)};
}

}  // namespace ballchange::plan
