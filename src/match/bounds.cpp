#include "match/bounds.hpp"

#include <algorithm>
#include <cmath>

namespace ballchange::matching {
namespace {

constexpr double hopeless = 12;   // standard deviations: exp(-72)
constexpr double unfelt = 1e-16;  // share of a bound that does not change it

}  // namespace

double highest_density(const Measured& entry, const Block& block, const Model& model) {
  if (!entry.known) return 1;
  const double off = misfit(entry, block, model);
  if (off > hopeless) return 0;
  const double peak = peak_density(entry, block.variance);
  return off > 0 ? peak * std::exp(-off * off / 2) : peak;
}

double highest_at_least(const Measured& entry, const Block& block, const Model& model) {
  const double over = entry.length - block.mean * model.factor.back();
  if (!entry.known || over <= 0) return 1;
  return std::exp(-over * over / (2 * (block.variance + entry.variance)));
}

double highest_from_loose_end(const Measured& entry, const Run& run, const Model& model) {
  if (!entry.known) return run.cut.mean / model.total;
  // P(N + L >= y) and P(N <= y) are each at most exp(-z^2/2) where y lies z beyond what any stretch gives.
  double chance = 1;
  const double over = entry.length - run.whole.mean * model.factor.back();
  if (over > 0) chance = std::exp(-over * over / (2 * (run.whole.variance + entry.variance)));
  const double under = run.others.mean * model.factor.front() - entry.length;
  if (run.count > 1 && under > 0) {
    chance = std::min(chance, std::exp(-under * under / (2 * (run.others.variance + entry.variance))));
  }
  return chance / (model.factor.front() * model.total);
}

bool too_long(const Measured& entry, const Block& block, const Model& model) {
  return entry.known && block.mean * model.factor.front() > entry.length && misfit(entry, block, model) > hopeless;
}

void Bounds::compute(const Model& model, const Side& side, const Observed& observed) {
  size_ = side.size();
  const std::size_t count = observed.entries.size();
  levels_.assign((count + 1) * size_, 0);
  scales_.assign(count + 1, 0);
  at_loose_end(model, side, observed);
  for (std::size_t level = observed.bar_at_loose_end ? 0 : 1; level + 1 < count; ++level) {
    add_entry(model, side, observed, level);
  }
}

// The level a sum ends with: nothing left but a bar, or the entry cut by the loose end.
void Bounds::at_loose_end(const Model& model, const Side& side, const Observed& observed) {
  const Measured& entry = observed.entries.front();
  const bool new_end = observed.end == End::new_end;
  if (observed.bar_at_loose_end) {
    for (std::size_t b = 0; b < size_; ++b) levels_[b] = new_end ? 1 : otherwise(side, b, entry.colour);
    return rescale(0, 0);
  }
  for (std::size_t b = 0; b < size_; ++b) {
    double sum = 0;
    runs_from(side, observed.end, b, entry.colour, new_end, [&](const Run& run) {
      if (run.count > 1 && too_long(entry, run.others, model)) return false;
      sum += run.weight * highest_from_loose_end(entry, run, model);
      return true;
    });
    levels_[size_ + b] = sum;
  }
  rescale(1, 0);
}

// The level above `level`: entry number `level` lies before it, whole.
void Bounds::add_entry(const Model& model, const Side& side, const Observed& observed, std::size_t level) {
  const Measured& entry = observed.entries[level];
  const bool never_overlooked = observed.end == End::new_end && level == 0;
  for (std::size_t b = 0; b < size_; ++b) {
    double sum = 0;
    runs_from(side, observed.end, b, entry.colour, never_overlooked, [&](const Run& run) {
      if (too_long(entry, run.whole, model)) return false;
      const double ahead = levels_[level * size_ + run.boundary];
      const double most = run.weight * peak_density(entry, run.whole.variance) * ahead;
      if (most > unfelt * sum) sum += run.weight * highest_density(entry, run.whole, model) * ahead;
      return true;
    });
    levels_[(level + 1) * size_ + b] = sum;
  }
  rescale(level + 1, scales_[level]);
}

void Bounds::rescale(std::size_t level, double log_before) {
  double* const values = &levels_[level * size_];
  const double highest = *std::max_element(values, values + size_);
  scales_[level] = log_before;
  if (!(highest > 0)) return;
  for (std::size_t b = 0; b < size_; ++b) values[b] /= highest;
  scales_[level] += std::log(highest);
}

}  // namespace ballchange::matching
