#include "match/posterior.hpp"

#include <algorithm>
#include <cmath>

namespace ballchange::matching {
namespace {

constexpr double quick_threshold = 1e-15;

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
      measured.variance = tape * tape + entry.rounding_variance;
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

void Posterior::run(const Observed& observed, Direction direction, bool exact, Totals& totals, const OpenBlock* only) {
  observed_ = &observed;
  side_ = &model_.side(direction);
  threshold_ = exact ? 0 : quick_threshold;
  too_far_ = exact ? 38 : 12;
  dropped_ = 0;
  log_scale_ = 0;
  now_.reset(side_->size());
  then_.reset(side_->size());
  start(only);
  const std::size_t count = observed.entries.size();
  const std::size_t stop = observed.bar_at_loose_end ? 0 : 1;  // without a bar the first entry is `finish`'s
  for (std::size_t index = count - 1; index-- > stop;) {
    rescale();
    step(observed.entries[index], index == 0);
  }
  rescale();
  finish(totals);
}

bool Posterior::too_small(double bound) {
  if (bound >= threshold_ * best_) return false;
  dropped_ += bound;
  return true;
}

bool Posterior::hopeless(const Measured& entry, const Block& block) const {
  return entry.known && block.mean * model_.factor.front() > entry.length && misfit(entry, block, model_) > too_far_;
}

void Posterior::add(std::size_t boundary, double weight, const Stretched& source) {
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
    dropped_ /= best_;
    log_scale_ += std::log(best_);
  }
  best_ = 0;
}

void Posterior::start(const OpenBlock* only) {
  best_ = 0;
  const Measured& entry = observed_->entries.back();
  const bool new_end = observed_->end == End::new_end;
  if (observed_->entries.size() == 1 && !observed_->bar_at_loose_end) {
    // The one entry reaches from the loose end to a change that is seen: `finish` reads it, here is only what lies
    // beyond.
    density_.fill(1);
    for (std::size_t boundary = 0; boundary < side_->size(); ++boundary) {
      const double beyond =
          new_end ? otherwise(*side_, boundary, entry.colour) : side_->before[side_->at(boundary, entry.colour)];
      add(boundary, beyond, model_.weight);
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
    if (!too_small(weight)) add(from, weight, model_.weight);
    return;
  }
  runs_at_open_end(*side_, observed_->end, from, entry.colour, never_overlooked, [&](const Run& run) {
    if (whole && hopeless(entry, run.whole)) return false;
    if (only != nullptr && only->count != run.count) return run.count < only->count;
    if (!too_small(run.weight * (whole ? peak_density(entry, run.whole.variance) : 1))) {
      if (whole) {
        whole_density(entry, run.whole, model_, density_);
      } else {
        at_least(entry, run.whole, model_, density_);
      }
      add(run.boundary, run.weight, model_.weight);
    }
    return true;
  });
}

void Posterior::step(const Measured& entry, bool at_loose_end) {
  const bool never_overlooked = observed_->end == End::new_end && at_loose_end;
  const double least_variance = *std::min_element(side_->variance.begin(), side_->variance.end());
  dropped_ *= peak_density(entry, least_variance);
  for (const std::size_t boundary : now_.live) {
    const Stretched& source = now_.at[boundary];
    const double highest = now_.highest[boundary];
    runs_from(*side_, observed_->end, boundary, entry.colour, never_overlooked, [&](const Run& run) {
      if (hopeless(entry, run.whole)) return false;
      const double off = misfit(entry, run.whole, model_);
      const double bound = run.weight * highest * peak_density(entry, run.whole.variance) * std::exp(-off * off / 2);
      if (bound > 0 && !too_small(bound)) {
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
  if (observed_->bar_at_loose_end) {
    for (const std::size_t boundary : now_.live) {
      const double seen = observed_->end == End::new_end ? 1 : otherwise(*side_, boundary, entry.colour);
      for (std::size_t i = 0; i < stretches; ++i) totals.boundary[boundary][i] = seen * now_.at[boundary][i];
    }
  } else {
    dropped_ *= entry.known ? 1 / (model_.total * model_.factor.front()) : 1;
    for (const std::size_t boundary : now_.live) finish_from(boundary, totals);
  }
  totals.dropped = dropped_;
  for (const Stretched& values : totals.boundary) {
    for (const double value : values) totals.sum += value;
  }
}

// The entry at the loose end: the section the loose end lies in, and those read with it up to the change.
void Posterior::finish_from(std::size_t boundary, Totals& totals) {
  const Measured& entry = observed_->entries.front();
  const Stretched& source = now_.at[boundary];
  const double most = now_.highest[boundary] * (entry.known ? 1 / (model_.total * model_.factor.front()) : 1);
  runs_from(*side_, observed_->end, boundary, entry.colour, observed_->end == End::new_end, [&](const Run& run) {
    const bool any_others = run.count > 1;
    if (any_others && hopeless(entry, run.others)) return false;
    const double bound = run.weight * most;
    if (bound > 0 && !too_small(bound)) {
      from_loose_end(entry, run.others, run.cut, any_others, model_, density_);
      Stretched& target = totals.boundary[boundary];
      for (std::size_t i = 0; i < stretches; ++i) {
        target[i] += run.weight * source[i] * density_[i];
        best_ = std::max(best_, target[i]);
      }
    }
    return true;
  });
}

}  // namespace ballchange::matching
