#include "plan/quantiles.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

namespace ballchange::plan {
namespace {

// Lengths counted by size, so that only the few around a quantile need be sorted.
class Shelves {
 public:
  explicit Shelves(const std::vector<std::vector<Length>>& all) : all_(all), least_(never()), most_(-never()) {
    for (const auto& part : all_) add(part);
    const Length step = (most_ - least_) / static_cast<double>(count_.size() - 1);
    if (step > Length()) a_cm_ = 1 / step.cm();
    for (const auto& part : all_) {
      for (const Length one : part) ++count_[shelf(one)];
    }
  }

  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] Length mean() const { return sum_ / static_cast<double>(size_); }

  // The least that these shares of all do not exceed.
  template <std::size_t n>
  [[nodiscard]] std::array<Length, n> least_of(const std::array<double, n>& shares) const {
    std::array<Wanted, n> wanted;
    for (std::size_t k = 0; k < n; ++k) wanted[k] = wanted_at(shares[k]);
    for (const auto& part : all_) {
      for (const Length one : part) {
        const std::size_t at = shelf(one);
        for (Wanted& each : wanted) {
          if (each.shelf == at) each.near.push_back(one);
        }
      }
    }
    std::array<Length, n> found;
    for (std::size_t k = 0; k < n; ++k) {
      const auto at = wanted[k].near.begin() + static_cast<std::ptrdiff_t>(wanted[k].rank);
      std::nth_element(wanted[k].near.begin(), at, wanted[k].near.end());
      found[k] = *at;
    }
    return found;
  }

 private:
  struct Wanted {
    std::size_t shelf = 0, rank = 0;  // the rank on that shelf
    std::vector<Length> near;
  };

  static Length never() { return Length::cm(std::numeric_limits<double>::infinity()); }

  void add(const std::vector<Length>& part) {
    size_ += part.size();
    Length sum;
    for (const Length one : part) {
      least_ = std::min(least_, one);
      most_ = std::max(most_, one);
      sum += one;
    }
    sum_ += sum;
  }

  [[nodiscard]] Wanted wanted_at(double share) const {
    auto rank = static_cast<std::size_t>(std::ceil(share * static_cast<double>(size_))) - 1;
    std::size_t at = 0;
    while (rank >= count_[at]) rank -= count_[at++];
    return {at, rank, {}};
  }

  [[nodiscard]] std::size_t shelf(Length one) const {
    return std::min(static_cast<std::size_t>((one - least_).cm() * a_cm_), count_.size() - 1);
  }

  const std::vector<std::vector<Length>>& all_;
  Length least_, most_, sum_;
  double a_cm_ = 0;  // shelves to a centimetre
  std::size_t size_ = 0;
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

Waste waste_of(const std::vector<std::vector<Length>>& parts) {
  const Shelves shelves(parts);
  if (shelves.size() == 0) return {};
  const auto [p50, p90, p95] = shelves.least_of(std::array{0.50, 0.90, 0.95});
  return {shelves.mean(), p50, p90, p95};
}

}  // namespace ballchange::plan
