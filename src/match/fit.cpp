#include "match/fit.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/normal.hpp"

namespace ballchange::matching {
namespace {

constexpr double lengths_too_rare = 1e-6;
constexpr double slips_too_rare = 5e-5;  // three of six sections; two of any number are believed
constexpr double both_too_rare = 1e-7;
constexpr double unlike_weight = 0.02;  // a name that is written by a slip, not for a look-alike
constexpr double slip = 0.01;
constexpr double a_slip_counts_as = 3;     // standard deviations
constexpr std::size_t entries_tried = 64;  // a longer reading is not tried without each of its lengths

struct Slips {
  std::size_t count = 0, sections = 0;
};

// P(at least k of n slips).
double so_many_slips(const Slips& slips) {
  double below = 0, term = std::pow(1 - slip, static_cast<double>(slips.sections));
  for (std::size_t i = 0; i < slips.count; ++i) {
    below += term;
    term *= static_cast<double>(slips.sections - i) / static_cast<double>(i + 1) * slip / (1 - slip);
  }
  return std::max(0.0, 1 - below);
}

bool believable(double length_chance, const Slips& slips) {
  if (length_chance < lengths_too_rare) return false;
  const double slip_chance = slips.count == 0 ? 1 : so_many_slips(slips);
  return slip_chance >= slips_too_rare && slip_chance * length_chance >= both_too_rare;
}

// In a run read under one name. Sections of that colour were seen, the others passed over.
Slips slips_in(const Side& side, ColourId written, std::size_t first, std::size_t count) {
  Slips slips;
  std::size_t section = first;
  for (std::size_t n = 0; n < count; ++n, section = side.next(section)) {
    ++slips.sections;
    if (side.name[side.at(section, written)] >= unlike_weight) continue;
    if (n == 0 || side.overlooked[section] <= slip) ++slips.count;
  }
  return slips;
}

// The best path to the likeliest change, over both directions.
std::optional<std::pair<Path, Direction>> best_way(const Model& model, const Observed& observed,
                                                   const MatchOptions& options, double& log_total) {
  Posterior posterior(model);
  posterior.take(observed, options);
  std::optional<std::pair<Path, Direction>> best;
  for (const Side& side : model.sides) {
    const double chance = model.chance(side.direction, options);
    Totals totals;
    if (chance > 0) posterior.run(side.direction, totals);
    if (!(totals.sum > 0)) continue;
    const double total = std::log(chance * totals.sum) + totals.log_scale;
    if (best && total <= log_total) continue;
    std::size_t boundary = 0, stretch = 0;
    double highest = -1;
    for (std::size_t b = 0; b < side.size(); ++b) {
      for (std::size_t i = 0; i < stretches; ++i) {
        if (totals.boundary[b][i] <= highest) continue;
        highest = totals.boundary[b][i];
        boundary = b;
        stretch = i;
      }
    }
    const std::optional<Path> path = best_path(model, observed, side.direction, boundary, stretch);
    if (!path) continue;
    log_total = total;
    best = {*path, side.direction};
  }
  return best;
}

std::size_t furthest_off(const Model& model, const Observed& observed) {
  const std::optional<Path> closest = closest_path(model, observed, Direction::forward);
  if (!closest) return 0;
  const Side& side = model.side(Direction::forward);
  std::size_t worst = 0;
  double worst_so_far = -1;
  for (std::size_t index = 0; index < closest->entries.size(); ++index) {
    const PathEntry& entry = closest->entries[index];
    const Slips slips = slips_in(side, observed.entries[index].colour, entry.first, entry.count);
    const double bad = entry.misfit + a_slip_counts_as * static_cast<double>(slips.count);
    if (bad <= worst_so_far) continue;
    worst_so_far = bad;
    worst = index;
  }
  return worst;
}

}  // namespace

bool fits(const Model& model, const Observed& observed, const Path& path, Direction direction) {
  Slips all;
  for (std::size_t index = 0; index < path.entries.size(); ++index) {
    const PathEntry& entry = path.entries[index];
    const Slips slips = slips_in(model.side(direction), observed.entries[index].colour, entry.first, entry.count);
    all.count += slips.count;
    all.sections += slips.sections;
  }
  const double lengths = path.lengths > 0 ? chi_square_tail(path.chi_square, static_cast<double>(path.lengths)) : 1;
  return believable(lengths, all);
}

bool fits(const Model& model, const Observed& observed, const Unseen& run, Direction direction) {
  const Measured& entry = observed.entries.front();
  const double mean = run.others.mean + run.cut.mean;
  const double stretch = model.ball_plus_minus * mean;
  const double variance = run.others.variance + run.cut.variance + entry.variance + stretch * stretch;
  const double over = entry.known ? (entry.length - mean) / std::sqrt(variance) : 0;
  const double chance = over > 0 ? chi_square_tail(over * over, 1) : 1;
  return believable(chance, slips_in(model.side(direction), entry.colour, run.first, run.count));
}

std::size_t worst_entry(const Model& model, const Observed& observed, const MatchOptions& options) {
  const std::size_t count = observed.entries.size();
  std::optional<std::size_t> worst;
  double best_total = 0;
  for (std::size_t index = 0; count > 1 && count <= entries_tried && index < count; ++index) {
    if (!observed.entries[index].known) continue;
    Observed without = observed;
    without.entries[index].known = false;
    double total = 0;
    const auto way = best_way(model, without, options, total);
    if (!way || !fits(model, without, way->first, way->second)) continue;
    if (worst && total <= best_total) continue;
    worst = index;
    best_total = total;
  }
  return worst ? *worst : furthest_off(model, observed);
}

}  // namespace ballchange::matching
