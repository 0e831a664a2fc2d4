#include "match/posterior.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ballchange::matching {
namespace {

constexpr double negligible = 1e-13;   // of the whole
constexpr double beam_width = 0.3;     // of the best bound
constexpr double impossible = -1e300;  // logarithm of nothing
// Steps that a normal distribution function at every stretch comes to.
constexpr std::uint64_t distribution_costs = 5;

}  // namespace

void observe(const Reading& reading, const MatchOptions& options, Observed& out) {
  out.end = reading.end;
  out.bar_at_loose_end = reading.bar_at_loose_end;
  out.bar_at_open_end = reading.bar_at_open_end;
  out.entries.clear();
  for (const Entry& entry : reading.entries) {
    Measured measured;
    measured.colour = entry.colour;
    measured.known = entry.length.has_value();
    if (entry.length) {
      measured.length = entry.length->cm();
      const double tape = options.tape.fixed.cm() + options.tape.share * measured.length;
      measured.variance = std::max(tape * tape + entry.rounding_variance, finest * finest);
    }
    out.entries.push_back(measured);
  }
}

void Field::reset(std::size_t size) {
  if (at.size() != size) {
    at.assign(size, {});
    highest.assign(size, 0);
    is_live.assign(size, 0);
  }
  for (const std::size_t boundary : live) is_live[boundary] = 0;
  live.clear();
}

Stretched& Field::touch(std::size_t boundary) {
  if (is_live[boundary] == 0) {
    is_live[boundary] = 1;
    live.push_back(boundary);
    at[boundary].fill(0);
    highest[boundary] = 0;
  }
  return at[boundary];
}

Posterior::Posterior(const Model& model) : model_(model) {}

void Posterior::take(const Observed& observed, const MatchOptions& options) {
  observed_ = &observed;
  log_floor_ = impossible;
  // A whole entry at the open end has a density, which may exceed 1.
  highest_start_ = observed.bar_at_open_end ? std::max(1.0, peak_density(observed.entries.back(), 0)) : 1;
  for (std::size_t d = 0; d < 2; ++d) {
    const double chance = model_.chance(model_.sides[d].direction, options);
    log_chance_[d] = chance > 0 ? std::log(chance) : impossible;
    if (chance == 0) continue;
    bounds_[d].compute(model_, model_.sides[d], observed);
    work_ += observed.entries.size() * model_.sides[d].size();
    if (out_of_the_race(d)) continue;
    beam_ = true;
    sweep(model_.sides[d].direction, floor_, nullptr);
    beam_ = false;
    if (floor_.sum > 0) log_floor_ = std::max(log_floor_, std::log(floor_.sum) + floor_.log_scale + log_chance_[d]);
  }
}

// Whether a whole direction comes to less than matters.
bool Posterior::out_of_the_race(std::size_t d) const {
  const std::size_t count = observed_->entries.size();
  const std::size_t level = observed_->one_entry() ? 1 : count - 1;
  const Side& side = model_.sides[d];
  // At the open end a boundary is reached from at most every section, by runs whose chances add up to no more than 2.
  const double starts = 2 * static_cast<double>(side.size()) * highest_start_;
  return bounds_[d].log_scale(level) + std::log(starts) + log_chance_[d] < log_floor_ + std::log(negligible);
}

void Posterior::run(Direction direction, Totals& totals, const OpenBlock* only) {
  if (out_of_the_race(direction == Direction::backward ? 1 : 0)) {
    totals.boundary.assign(model_.side(direction).size(), Stretched{});
    totals.sum = 0;
    totals.log_scale = 0;
    return;
  }
  sweep(direction, totals, only);
}

void Posterior::sweep(Direction direction, Totals& totals, const OpenBlock* only) {
  const std::size_t d = direction == Direction::backward ? 1 : 0;
  side_ = &model_.sides[d];
  ahead_ = &bounds_[d];
  log_limit_ = std::log(negligible) + log_floor_ - log_chance_[d];
  log_scale_ = 0;
  now_.reset(side_->size());
  then_.reset(side_->size());
  start(only);
  const std::size_t count = observed_->entries.size();
  const std::size_t stop = observed_->bar_at_loose_end ? 0 : 1;  // without a bar the first entry is `finish`'s
  for (std::size_t index = count - 1; index-- > stop;) {
    rescale();
    enter_level(index);
    step(observed_->entries[index], index == 0);
  }
  rescale();
  finish(totals);
}

// Level: how many entries lie between the field about to be filled and the loose end.
void Posterior::enter_level(std::size_t level) {
  level_ = level;
  best_ = best_bound_ = 0;
  limit_ = std::exp(std::min(700.0, log_limit_ - log_scale_ - ahead_->log_scale(level)));
}

bool Posterior::too_small(double bound) {
  if (!beam_) return bound < limit_ || bound == 0;
  if (bound == 0 || bound < beam_width * best_bound_) return true;
  best_bound_ = std::max(best_bound_, bound);
  return false;
}

void Posterior::add(std::size_t boundary, double weight, const Stretched& source) {
  ++work_;
  Stretched& target = then_.touch(boundary);
  double highest = 0;
  for (std::size_t i = 0; i < stretches; ++i) {
    target[i] += weight * source[i] * density_[i];
    highest = std::max(highest, target[i]);
  }
  then_.highest[boundary] = highest;
  best_ = std::max(best_, highest);
}

// Brings the field just filled to the front, scaled to a highest value of 1.
void Posterior::rescale() {
  std::swap(now_, then_);
  then_.reset(side_->size());
  if (best_ > 0) {
    for (const std::size_t boundary : now_.live) {
      for (double& value : now_.at[boundary]) value /= best_;
      now_.highest[boundary] /= best_;
    }
    log_scale_ += std::log(best_);
  }
}

void Posterior::start(const OpenBlock* only) {
  const Measured& entry = observed_->entries.back();
  const bool new_end = observed_->end == End::new_end;
  const bool one_entry = observed_->one_entry();
  enter_level(one_entry ? 1 : observed_->entries.size() - 1);
  if (one_entry) {
    // The one entry reaches from the loose end to a change that is seen: `finish` reads it, here is only what lies
    // beyond.
    density_.fill(1);
    for (std::size_t boundary = 0; boundary < side_->size(); ++boundary) {
      const double beyond =
          new_end ? otherwise(*side_, boundary, entry.colour) : side_->before[side_->at(boundary, entry.colour)];
      if (!too_small(beyond * ahead_->at(level_, boundary))) add(boundary, beyond, model_.weight);
    }
    return;
  }
  for (std::size_t from = 0; from < side_->size(); ++from) {
    if (only == nullptr || only->from == from) start_from(entry, from, only);
  }
}

void Posterior::start_from(const Measured& entry, std::size_t from, const OpenBlock* only) {
  const bool new_end = observed_->end == End::new_end;
  const bool whole = observed_->bar_at_open_end;
  const bool never_overlooked = new_end && observed_->entries.size() == 1;
  if (new_end && !entry.known && only == nullptr) {
    // Summed over where the run ends this comes to the chance of its first section.
    const std::size_t cell = side_->at(from, entry.colour);
    const double weight = never_overlooked ? side_->name[cell] : side_->first[cell];
    density_.fill(1);
    if (!too_small(weight * ahead_->at(level_, from))) add(from, weight, model_.weight);
    return;
  }
  runs_at_open_end(*side_, observed_->end, from, entry.colour, never_overlooked, [&](const Run& run) {
    if (whole && too_long(entry, run.whole, model_)) return false;
    if (only != nullptr && only->count != run.count) return run.count < only->count;
    const double highest =
        whole ? highest_density(entry, run.whole, model_) : highest_at_least(entry, run.whole, model_);
    if (!too_small(run.weight * highest * ahead_->at(level_, run.boundary))) {
      if (whole) {
        whole_density(entry, run.whole, model_, density_);
      } else {
        at_least(entry, run.whole, model_, density_);
        if (entry.known) work_ += distribution_costs;
      }
      add(run.boundary, run.weight, model_.weight);
    }
    return true;
  });
}

void Posterior::step(const Measured& entry, bool at_loose_end) {
  const bool never_overlooked = observed_->end == End::new_end && at_loose_end;
  for (const std::size_t boundary : now_.live) {
    const Stretched& source = now_.at[boundary];
    const double highest = now_.highest[boundary];
    runs_from(*side_, observed_->end, boundary, entry.colour, never_overlooked, [&](const Run& run) {
      if (too_long(entry, run.whole, model_)) return false;
      const double most = run.weight * highest * ahead_->at(level_, run.boundary);
      if (too_small(most * peak_density(entry, run.whole.variance))) return true;
      if (!too_small(most * highest_density(entry, run.whole, model_))) {
        whole_density(entry, run.whole, model_, density_);
        add(run.boundary, run.weight, source);
      }
      return true;
    });
  }
}

void Posterior::finish(Totals& totals) {
  const std::size_t size = side_->size();
  const Measured& entry = observed_->entries.front();
  totals.boundary.assign(size, Stretched{});
  totals.sum = 0;
  totals.log_scale = log_scale_;
  limit_ = std::exp(std::min(700.0, log_limit_ - log_scale_));
  best_bound_ = 0;
  if (observed_->bar_at_loose_end) {
    for (const std::size_t boundary : now_.live) {
      const double seen = observed_->end == End::new_end ? 1 : otherwise(*side_, boundary, entry.colour);
      for (std::size_t i = 0; i < stretches; ++i) totals.boundary[boundary][i] = seen * now_.at[boundary][i];
    }
  } else {
    for (const std::size_t boundary : now_.live) finish_from(boundary, totals);
  }
  for (const std::size_t boundary : now_.live) {
    for (const double value : totals.boundary[boundary]) totals.sum += value;
  }
}

// The entry at the loose end: the section the loose end lies in, and those read with it up to the change.
void Posterior::finish_from(std::size_t boundary, Totals& totals) {
  const Measured& entry = observed_->entries.front();
  const Stretched& source = now_.at[boundary];
  runs_from(*side_, observed_->end, boundary, entry.colour, observed_->end == End::new_end, [&](const Run& run) {
    const bool any_others = run.count > 1;
    if (any_others && too_long(entry, run.others, model_)) return false;
    const double bound = run.weight * now_.highest[boundary] * highest_from_loose_end(entry, run, model_);
    if (!too_small(bound)) {
      from_loose_end(entry, run.others, run.cut, any_others, model_, density_);
      ++work_;
      if (entry.known) work_ += any_others ? 2 * distribution_costs : distribution_costs;
      Stretched& target = totals.boundary[boundary];
      for (std::size_t i = 0; i < stretches; ++i) {
        target[i] += run.weight * source[i] * density_[i];
      }
    }
    return true;
  });
}

}  // namespace ballchange::matching
