#pragma once
#include <vector>

#include "match/runs.hpp"

// How much the rest of a reading can at most add, so that the sum over all ways leaves out only what cannot matter.
namespace ballchange::matching {

// For one side and one reading. Level t, boundary b: an upper bound, times exp(log_scale(t)), for all ways in which the
// entries 0 .. t-1 lie between change b and the loose end, whatever the stretch.
class Bounds {
 public:
  void compute(const Model& model, const Side& side, const Observed& observed);
  [[nodiscard]] double at(std::size_t level, std::size_t boundary) const { return levels_[level * size_ + boundary]; }
  [[nodiscard]] double log_scale(std::size_t level) const { return scales_[level]; }

 private:
  void at_loose_end(const Model& model, const Side& side, const Observed& observed);
  void add_entry(const Model& model, const Side& side, const Observed& observed, std::size_t level);
  void rescale(std::size_t level, double log_before);

  std::size_t size_ = 0;
  std::vector<double> levels_, scales_;
};

// Largest density a whole block can give an entry at any stretch.
[[nodiscard]] double highest_density(const Measured& entry, const Block& block, const Model& model);
// Likewise for a block at least as long as the entry.
[[nodiscard]] double highest_at_least(const Measured& entry, const Block& block, const Model& model);
// Likewise for an entry that runs to the loose end.
[[nodiscard]] double highest_from_loose_end(const Measured& entry, const Run& run, const Model& model);
// No stretch makes a block so long fit, nor a longer one.
[[nodiscard]] bool too_long(const Measured& entry, const Block& block, const Model& model);

}  // namespace ballchange::matching
