#include "measure/weigh.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "match/fit.hpp"
#include "match/posterior.hpp"

namespace ballchange::measuring {
namespace {

constexpr std::size_t most_rounds = 8;
constexpr double still = 0.05;  // cm: lengths that move no more than this have settled

bool all_known(const Circle& circle) {
  return std::all_of(circle.begin(), circle.end(), [](const Patch& patch) { return patch.known(); });
}

bool moved(const Circle& before, const Circle& after) {
  for (std::size_t k = 0; k < before.size(); ++k) {
    if (std::abs(before[k].length - after[k].length) > still) return true;
  }
  return false;
}

}  // namespace

Scales::Scales(const Lore& lore, const std::vector<matching::Observed>& strands,
               const std::vector<MatchOptions>& options, double ball_plus_minus, bool believed)
    : lore_(lore),
      strands_(strands),
      options_(options),
      ball_plus_minus_(strands.size() == 1 && !believed ? 0 : ball_plus_minus),
      one_ball_(strands.size() == 1 && !believed),
      laid_(strands.size()) {}

matching::Model Scales::model_of(const Circle& circle) const {
  matching::Model model(yarn_of(circle, lore_, ball_plus_minus_));
  // What was measured first says which way is forward.
  if (one_ball_) model.directionless = true;
  return model;
}

std::optional<Weighed> Scales::weigh(Circle circle, const Bound& bound) {
  if (!all_known(circle) || !closes(circle)) return std::nullopt;
  for (Patch& patch : circle) patch.sd = usual_plus_minus(Length::cm(patch.length)).cm();
  Weighed weighed;
  Lengths lengths;
  for (std::size_t round = 0; round < most_rounds; ++round) {
    if (!lay(model_of(circle))) return std::nullopt;
    const Circle before = circle;
    lengths = fit_lengths(circle, strands_, laid_, bound);
    if (!rename(circle, bound) && !moved(before, circle)) break;
  }
  const matching::Model model = model_of(circle);
  const std::optional<double> chance = log_chance(model);
  if (!chance) return std::nullopt;
  weighed.evidence = *chance + lengths.log_width + lengths.log_scatter + cost(circle, bound);
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    if (laid_[s].direction == Direction::backward && !model.directionless) weighed.backward.push_back(s);
    if (matching::fits(model, strands_[s], laid_[s].path, laid_[s].direction)) continue;
    if (!weighed.unfitting) weighed.unfitting = s;
  }
  weighed.passed_over = passed_over(circle);
  weighed.gaps = gaps(circle);
  weighed.odd = oddities(circle, weighed.passed_over);
  weighed.begin = strands_.empty() ? 0 : section_of(0, 0, circle.size());
  weighed.seen = std::move(lengths.seen);
  weighed.slips = slips(circle, weighed.seen);
  weighed.circle = std::move(circle);
  return weighed;
}

// What the circle's lengths and colours could be expected with before any strand was seen.
double Scales::cost(const Circle& circle, const Bound& bound) const {
  double sum = 0;
  std::vector<char> counted(circle.size(), 0);
  double total = 0;
  for (std::size_t k = 0; k < circle.size(); ++k) {
    total += circle[k].length;
    const std::size_t group = bound.same_as.empty() ? k : bound.same_as[k];
    if (counted[group] != 0) continue;
    counted[group] = 1;
    if (bound.prior.empty()) {
      sum += lore_.any_length(circle[k].length) + lore_.any_colour();
      continue;
    }
    const Patch& before = bound.prior[k];
    const double variance = believed_variance(before);
    const double off = circle[k].length - before.length;
    sum -= off * off / (2 * variance) + std::log(matching::root_two_pi * std::sqrt(variance));
  }
  if (bound.total) {
    const double off = (total - *bound.total) / bound.total_sd;
    sum -= off * off / 2;
  }
  return sum;
}

bool Scales::lay(const matching::Model& model) {
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    work_ += strands_[s].entries.size() * model.sides[0].size();
    stuck_ = s;
    if (!one_ball_) {
      if (!lay_with_stretch(model, s)) return false;
      continue;
    }
    std::optional<matching::Path> path = matching::closest_path(model, strands_[s], Direction::forward);
    if (!path) return false;
    laid_[s] = {std::move(*path), Direction::forward, 1};
  }
  return true;
}

// The likeliest direction, change and stretch by the sum over all ways, and the likeliest way there.
bool Scales::lay_with_stretch(const matching::Model& model, std::size_t s) {
  const matching::Observed& strand = strands_[s];
  const MatchOptions& options = options_[s];
  Laid& laid = laid_[s];
  matching::Posterior posterior(model);
  posterior.take(strand, options);
  double highest = -1e300;
  std::size_t boundary = 0, stretch = 0;
  for (const matching::Side& side : model.sides) {
    const double chance = model.chance(side.direction, options);
    if (chance == 0) continue;
    matching::Totals totals;
    posterior.run(side.direction, totals);
    if (!(totals.sum > 0)) continue;
    for (std::size_t b = 0; b < side.size(); ++b) {
      for (std::size_t i = 0; i < matching::stretches; ++i) {
        const double value = totals.boundary[b][i];
        if (!(value > 0)) continue;
        const double log_value = std::log(value * chance) + totals.log_scale;
        if (log_value <= highest) continue;
        highest = log_value;
        boundary = b;
        stretch = i;
        laid.direction = side.direction;
      }
    }
  }
  work_ += posterior.work();
  if (highest == -1e300) return false;
  std::optional<matching::Path> path = matching::best_path(model, strand, laid.direction, boundary, stretch);
  if (!path) return false;
  laid.path = std::move(*path);
  laid.factor = model.factor[stretch];
  return true;
}

// The section, counted forward, that gave an entry its name; and those `later` that it was read with.
std::size_t Scales::section_of(std::size_t strand, std::size_t entry, std::size_t size, std::size_t later) const {
  const std::size_t section = (laid_[strand].path.entries[entry].first + later) % size;
  return laid_[strand].direction == Direction::forward ? section : size - 1 - section;
}

// Sections whose entries bear another name more often than theirs were written wrong where the circle was taken from.
bool Scales::rename(Circle& circle, const Bound& bound) const {
  const std::size_t size = circle.size();
  std::vector<std::vector<std::size_t>> names(size, std::vector<std::size_t>(lore_.colours.size()));
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    for (std::size_t i = 0; i < laid_[s].path.entries.size(); ++i) {
      ++names[section_of(s, i, size)][strands_[s].entries[i].colour];
    }
  }
  if (!bound.prior.empty()) {
    for (std::size_t k = 0; k < size; ++k) names[k][bound.prior[k].colour] += prior_passes;
  }
  bool renamed = false;
  for (std::size_t k = 0; k < size; ++k) {
    const auto most = std::max_element(names[k].begin(), names[k].end());
    const auto colour = static_cast<ColourId>(most - names[k].begin());
    const bool beside = colour == circle[(k + 1) % size].colour || colour == circle[(k + size - 1) % size].colour;
    if (*most <= names[k][circle[k].colour] || beside) continue;
    circle[k].colour = colour;
    renamed = true;
  }
  return renamed;
}

// Of a whole section that was met besides. The mean holds this length, too, as one of `times`; what scatter it has by
// it is no measure.
bool Scales::is_off(std::size_t strand, std::size_t entry, const Patch& patch, std::size_t times) const {
  constexpr double far = 2.5;  // standard deviations
  const matching::Observed& observed = strands_[strand];
  const matching::Measured& written = observed.entries[entry];
  const bool whole = (entry > 0 || observed.bar_at_loose_end) &&
                     (entry + 1 < observed.entries.size() || observed.bar_at_open_end) &&
                     laid_[strand].path.entries[entry].count == 1;
  if (!whole || !written.known || times < 2) return false;
  const double n = static_cast<double>(times);
  const double usual = usual_plus_minus(Length::cm(patch.length)).cm();
  const double sd = std::sqrt((usual * usual + written.variance) * (n - 1) / n);
  return std::abs(written.length / laid_[strand].factor - patch.length) > far * sd;
}

std::vector<Slip> Scales::slips(const Circle& circle, const std::vector<Seen>& seen) const {
  std::vector<Slip> found;
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    for (std::size_t i = 0; i < laid_[s].path.entries.size(); ++i) {
      const std::size_t section = section_of(s, i, circle.size());
      const matching::Measured& entry = strands_[s].entries[i];
      if (entry.colour == circle[section].colour) continue;
      const bool off = is_off(s, i, circle[section], seen[section].times);
      found.push_back({s, i, section, entry.colour, entry.length, off});
    }
  }
  return found;
}

std::vector<std::size_t> Scales::passed_over(const Circle& circle) const {
  std::set<std::size_t> found;
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    for (std::size_t i = 0; i < laid_[s].path.entries.size(); ++i) {
      for (std::size_t later = 1; later < laid_[s].path.entries[i].count; ++later) {
        const std::size_t section = section_of(s, i, circle.size(), later);
        if (circle[section].length > lore_.short_section.cm()) found.insert(section);
      }
    }
  }
  return {found.begin(), found.end()};
}

std::vector<Oddity> Scales::oddities(const Circle& circle, const std::vector<std::size_t>& passed_over) const {
  std::vector<Oddity> found;
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    for (std::size_t i = 0; i < laid_[s].path.entries.size(); ++i) {
      const std::size_t section = section_of(s, i, circle.size());
      const bool slip = strands_[s].entries[i].colour != circle[section].colour;
      if (slip || std::binary_search(passed_over.begin(), passed_over.end(), section)) found.push_back({s, i});
    }
  }
  return found;
}

std::vector<Gap> Scales::gaps(const Circle& circle) const {
  const std::size_t size = circle.size();
  std::vector<char> whole(size, 0);
  std::vector<Gap> shown(size);
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    const matching::Observed& strand = strands_[s];
    const std::size_t last = strand.entries.size() - 1;
    const bool new_end = strand.end == End::new_end, forward = laid_[s].direction == Direction::forward;
    for (std::size_t i = 0; i <= last; ++i) {
      const bool loose = i == 0 && !strand.bar_at_loose_end, open = i == last && !strand.bar_at_open_end;
      const bool no_start = new_end ? loose : open, no_end = new_end ? open : loose;
      const std::size_t count = laid_[s].path.entries[i].count;
      double run = 0;
      for (std::size_t n = 0; n < count; ++n) run += circle[section_of(s, i, size, n)].length;
      for (std::size_t n = 0; n < count; ++n) {
        const std::size_t section = section_of(s, i, size, n);
        const bool at_start = n == 0 && no_start, at_end = n + 1 == count && no_end;
        if (!at_start && !at_end) whole[section] = 1;
        const double others = run - circle[section].length;
        const double read = strand.entries[i].known ? std::max(0.0, strand.entries[i].length - others) : 0;
        double& so_far = at_end == forward ? shown[section].begun : shown[section].ended;
        so_far = std::max(so_far, read);
      }
    }
  }
  std::vector<Gap> found;
  for (std::size_t k = 0; k < size; ++k) {
    if (whole[k] == 0) found.push_back({k, shown[k].begun, shown[k].ended});
  }
  return found;
}

std::optional<double> Scales::log_chance(const matching::Model& model) {
  double sum = 0;
  matching::Posterior posterior(model);
  for (std::size_t s = 0; s < strands_.size(); ++s) {
    posterior.take(strands_[s], options_[s]);
    double highest = -1e300, both = 0;
    for (const matching::Side& side : model.sides) {
      const double chance = model.chance(side.direction, options_[s]);
      if (chance == 0) continue;
      matching::Totals totals;
      posterior.run(side.direction, totals);
      if (!(totals.sum > 0)) continue;
      const double log_side = std::log(chance * totals.sum) + totals.log_scale;
      both = log_side > highest ? 1 + both * std::exp(highest - log_side) : both + std::exp(log_side - highest);
      highest = std::max(highest, log_side);
    }
    if (both == 0) return std::nullopt;
    sum += highest + std::log(both);
  }
  work_ += posterior.work();
  return sum;
}

double Scales::nothing_recurs() const {
  double sum = 0;
  for (const matching::Observed& strand : strands_) {
    const Line line = line_of(strand);
    double length = 0;
    for (std::size_t i = 0; i < line.entries.size(); ++i) {
      const matching::Measured& entry = line.entries[i];
      sum += lore_.any_colour();
      if (!entry.known) continue;
      length += entry.length;
      if (i >= line.from && i < line.to) sum += lore_.any_length(entry.length);
    }
    sum -= std::log(std::max(length, 1.0));
  }
  return sum;
}

void keep_fitting(std::vector<Weighed>& weighed) {
  const auto unfit = [](const Weighed& one) { return one.unfitting.has_value(); };
  if (std::all_of(weighed.begin(), weighed.end(), unfit)) return;
  weighed.erase(std::remove_if(weighed.begin(), weighed.end(), unfit), weighed.end());
}

void keep_distinct(std::vector<Weighed>& weighed) {
  std::stable_sort(weighed.begin(), weighed.end(),
                   [](const Weighed& a, const Weighed& b) { return a.evidence > b.evidence; });
  std::vector<Weighed> distinct;
  for (Weighed& one : weighed) {
    const bool known = std::any_of(distinct.begin(), distinct.end(),
                                   [&](const Weighed& other) { return same_sections(other.circle, one.circle); });
    if (!known) distinct.push_back(std::move(one));
  }
  weighed = std::move(distinct);
}

}  // namespace ballchange::measuring
