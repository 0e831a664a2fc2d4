#include "match/ahead.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/normal.hpp"
#include "match/unseen.hpp"

namespace ballchange::matching {
namespace {

constexpr double negligible = 1e-7;

// A state as run by the sum over all ways, not yet on a common scale.
struct Weighed {
  OpenState state;
  double log_scale = 0;
};

void keep(const Totals& totals, double chance, Weighed weighed, std::vector<Weighed>& found) {
  weighed.log_scale = totals.log_scale;
  weighed.state.chance = chance * totals.sum;
  for (const Stretched& values : totals.boundary) {
    double sum = 0;
    for (std::size_t i = 0; i < stretches; ++i) {
      weighed.state.stretch[i] += chance * values[i];
      sum += chance * values[i];
    }
    weighed.state.boundary.push_back(sum);
  }
  if (weighed.state.chance > 0) found.push_back(std::move(weighed));
}

// Every run of sections the open end may lie in, weighed with the rest of the reading; broken off once `most` work is
// done.
void weigh_runs(Posterior& posterior, const Observed& observed, const Side& side, double chance, std::uint64_t most,
                std::vector<Weighed>& found) {
  Totals totals;
  const ColourId written = observed.entries.back().colour;
  const bool never_overlooked = observed.end == End::new_end && observed.entries.size() == 1;
  for (std::size_t from = 0; from < side.size() && posterior.work() < most; ++from) {
    runs_at_open_end(side, observed.end, from, written, never_overlooked, [&](const Run& run) {
      if (run.weight < negligible) return run.count < 2;
      if (posterior.work() >= most) return false;
      const OpenBlock block{run.first, run.count};
      posterior.run(side.direction, totals, &block);
      keep(totals, chance, {{side.direction, block, 0, {}, {}, {}, {}}, 0}, found);
      return true;
    });
  }
}

// No change seen: the sections the strand may lie in, by name and by how much of them is left.
void weigh_unseen(const Model& model, const Observed& observed, const Side& side, double chance,
                  std::vector<Weighed>& found) {
  for (const Unseen& run : unseen_runs(model, side, observed)) {
    Weighed weighed{{side.direction,
                     {run.first, run.count},
                     chance * run.chance,
                     std::vector<double>(side.size()),
                     {},
                     run.others,
                     run.cut},
                    0};
    weighed.state.boundary[run.boundary] = weighed.state.chance;
    for (std::size_t i = 0; i < stretches; ++i) weighed.state.stretch[i] = weighed.state.chance * model.weight[i];
    found.push_back(std::move(weighed));
  }
}

// One entry from the loose end to a change that is seen: what lies beyond depends on that change alone.
void weigh_changes(Posterior& posterior, const Observed& observed, const Side& side, double chance,
                   std::vector<Weighed>& found) {
  Totals totals;
  posterior.run(side.direction, totals);
  if (!(totals.sum > 0)) return;
  for (std::size_t boundary = 0; boundary < side.size(); ++boundary) {
    const std::size_t from = observed.end == End::new_end ? side.previous(boundary) : boundary;
    Weighed weighed{{side.direction, {from, 1}, 0, std::vector<double>(side.size()), {}, {}, {}}, totals.log_scale};
    for (std::size_t i = 0; i < stretches; ++i) {
      weighed.state.stretch[i] = chance * totals.boundary[boundary][i];
      weighed.state.chance += weighed.state.stretch[i];
    }
    weighed.state.boundary[boundary] = weighed.state.chance;
    if (weighed.state.chance > 0) found.push_back(std::move(weighed));
  }
}

}  // namespace

std::vector<OpenState> open_states(const Model& model, const Observed& observed, const MatchOptions& options,
                                   Posterior& posterior) {
  std::vector<Weighed> found;
  const std::uint64_t most = posterior.work() + most_work / 2;
  if (observed.sees_a_change()) posterior.take(observed, options);
  for (const Side& side : model.sides) {
    const double chance = model.chance(side.direction, options);
    if (chance == 0) continue;
    if (!observed.sees_a_change()) {
      weigh_unseen(model, observed, side, chance, found);
    } else if (observed.one_entry()) {
      weigh_changes(posterior, observed, side, chance, found);
    } else {
      weigh_runs(posterior, observed, side, chance, most, found);
    }
  }
  if (posterior.work() >= most) return {};
  double common = -1e300;
  for (const Weighed& weighed : found) common = std::max(common, weighed.log_scale);
  double sum = 0;
  for (Weighed& weighed : found) sum += weighed.state.chance * std::exp(weighed.log_scale - common);
  std::vector<OpenState> states;
  for (Weighed& weighed : found) {
    const double scale = std::exp(weighed.log_scale - common) / sum;
    weighed.state.chance *= scale;
    if (!(weighed.state.chance > negligible)) continue;
    for (double& value : weighed.state.boundary) value *= scale;
    for (double& value : weighed.state.stretch) value *= scale;
    states.push_back(std::move(weighed.state));
  }
  return states;
}

std::vector<double> next_colour(const Model& model, const Observed& observed, const OpenState& state) {
  const Side& side = model.side(state.direction);
  const ColourId last = observed.entries.back().colour;
  std::vector<double> chances(side.colours);
  double sum = 0, passed = 1;
  const bool new_end = observed.end == End::new_end;
  std::size_t section =
      new_end ? (state.block.from + state.block.count) % side.size() : side.previous(state.block.from);
  for (std::size_t n = 0; n < side.size(); ++n) {
    for (ColourId colour = 0; colour < side.colours; ++colour) {
      if (colour == last) continue;
      const double chance = passed * side.first[side.at(section, colour)];
      chances[colour] += chance;
      sum += chance;
    }
    if (new_end) break;  // the run at a new end stops where the next section was seen
    passed *= side.overlooked[section];
    section = side.previous(section);
  }
  for (double& chance : chances) chance /= sum > 0 ? sum : 1;
  return chances;
}

Drawing::Drawing(const Model& model, const Observed& observed, const MatchOptions& options,
                 const std::vector<OpenState>& states, std::uint64_t seed)
    : model_(model), observed_(observed), options_(options), states_(states), random_(seed) {
  for (const OpenState& state : states) chances_.push_back(state.chance);
}

std::size_t Drawing::pick(const double* weights, std::size_t count, double sum) {
  double left = random_.uniform() * sum;
  for (std::size_t i = 0; i + 1 < count; ++i) {
    left -= weights[i];
    if (left < 0) return i;
  }
  return count - 1;
}

ColourId Drawing::pick_name(const Side& side, std::size_t section, std::optional<ColourId> not_this) {
  std::vector<double> weights(side.colours);
  double sum = 0;
  for (ColourId colour = 0; colour < side.colours; ++colour) {
    if (not_this && *not_this == colour) continue;
    weights[colour] = side.name[side.at(section, colour)];
    sum += weights[colour];
  }
  return pick(weights.data(), weights.size(), sum);
}

double Drawing::length_of(const Side& side, std::size_t section, double factor) {
  const double length = side.mean[section] * factor + std::sqrt(side.variance[section]) * random_.normal();
  return std::max(length, 0.1 * side.mean[section]);
}

// As the tape shows it, with the error of the tape and of rounding as it was so far.
double Drawing::measured(double length) {
  const double tape = options_.tape.fixed.cm() + options_.tape.share * length;
  return std::max(0.1, length + tape * random_.normal());
}

// From a loose end anywhere in its section, over the others, to the change, given that at least what was read is left.
double Drawing::up_to_the_change(const OpenState& state, double factor) {
  const Measured& entry = observed_.entries.back();
  const double read = entry.known ? entry.length : 0;
  const double longest = state.cut.mean * factor + 5 * std::sqrt(state.cut.variance);
  const auto some = [&](const Block& block) {
    return std::max(0.0, block.mean * factor + std::sqrt(block.variance) * random_.normal());
  };
  for (int attempt = 0; attempt < 200; ++attempt) {
    const double others = some(state.others);
    const double cut = some(state.cut);
    const double room = std::min(cut, others + cut - read);  // where in the section the loose end may lie
    if (random_.uniform() * longest < room) return others + cut - random_.uniform() * room;
  }
  return std::max(read, (state.others.mean + state.cut.mean) * factor);
}

double Drawing::whole_of_last(const Side& side, const OpenState& state, double factor) {
  const Measured& last = observed_.entries.back();
  const double read = last.known ? last.length : 0;
  if (!observed_.sees_a_change()) return measured(up_to_the_change(state, factor));
  Block block;
  std::size_t section = state.block.from;
  for (std::size_t n = 0; n < state.block.count; ++n, section = side.next(section)) {
    block.mean += side.mean[section] * factor;
    block.variance += side.variance[section];
  }
  const double sd = std::sqrt(block.variance + last.variance);
  if (!last.known) return std::max(0.1, block.mean + sd * random_.normal());
  // At least what was read: the upper part of the normal distribution, by inversion.
  const double above = normal_cdf((block.mean - read) / sd);
  const double p = std::max(above * random_.uniform(), 1e-300);
  return std::max(read, block.mean - sd * normal_quantile(std::min(p, 1 - 1e-16)));
}

Further Drawing::draw(double more) {
  const OpenState& state = states_[pick(chances_.data(), chances_.size(), 1)];
  const Side& side = model_.side(state.direction);
  const double factor = model_.factor[pick(state.stretch.data(), stretches, state.chance)];
  const Measured& last = observed_.entries.back();
  Further further;
  further.last_whole = last.length;
  double room = more;
  if (!observed_.bar_at_open_end) {
    further.last_whole = whole_of_last(side, state, factor);
    room -= further.last_whole - (last.known ? last.length : 0);
  }
  if (observed_.end == End::new_end) {
    walk_on(side, state, factor, room, further);
  } else {
    walk_back(side, state, factor, room, further);
  }
  return further;
}

// Forward from a new end's open entry: sections overlooked or written alike go with the one before.
void Drawing::walk_on(const Side& side, const OpenState& state, double factor, double most, Further& further) {
  std::size_t section = (state.block.from + state.block.count) % side.size();
  ColourId name = pick_name(side, section, observed_.entries.back().colour);
  double length = length_of(side, section, factor);
  for (double walked = 0; walked < most;) {
    section = side.next(section);
    const bool overlooked = random_.uniform() < side.overlooked[section];
    const ColourId next = overlooked ? name : pick_name(side, section, std::nullopt);
    if (next != name) {
      walked += length;
      further.entries.push_back({name, true, measured(length), 0});
      name = next;
      length = 0;
    }
    length += length_of(side, section, factor);
  }
}

// Chance that a section was overlooked; next to the open entry given that what is seen next is written otherwise.
double Drawing::passed_over(const Side& side, std::size_t section, bool in_the_open) const {
  const double overlooked = side.overlooked[section];
  if (in_the_open) return overlooked;
  const std::size_t cell = side.at(section, observed_.entries.back().colour);
  const double passed = overlooked * side.before[cell];
  const double seen = (1 - overlooked) * (1 - side.name[cell]);
  return passed / (passed + seen);
}

// Backward from an old end's open entry: overlooked sections go with the seen one before them.
void Drawing::walk_back(const Side& side, const OpenState& state, double factor, double most, Further& further) {
  std::size_t section = side.previous(state.block.from);
  std::optional<ColourId> name;
  double length = 0, passed = 0;
  for (double walked = 0; walked < most; section = side.previous(section)) {
    passed += length_of(side, section, factor);
    if (random_.uniform() < passed_over(side, section, name.has_value())) continue;
    const ColourId seen =
        name ? pick_name(side, section, std::nullopt) : pick_name(side, section, observed_.entries.back().colour);
    if (name && seen != *name) {
      walked += length;
      further.entries.push_back({*name, true, measured(length), 0});
      length = 0;
    }
    name = seen;
    length += passed;
    passed = 0;
  }
}

}  // namespace ballchange::matching
