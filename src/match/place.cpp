#include "match/place.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/normal.hpp"
#include "match/path.hpp"
#include "match/unseen.hpp"

namespace ballchange {

using namespace matching;

namespace {

constexpr double worth_listing = 0.01;   // candidates above this are told
constexpr double no_fit_chance = 1e-6;   // of a chi-square as large
constexpr double slips_too_rare = 1e-5;  // of so many unlike colours written down wrong and long sections overlooked
constexpr double both_too_rare = 1e-7;
constexpr double unlike_weight = 0.02;  // a name that is written by a slip, not for a look-alike
constexpr double slip = 0.01;

// P(at least k of n slips).
double so_many_slips(std::size_t k, std::size_t n) {
  double below = 0, term = std::pow(1 - slip, static_cast<double>(n));
  for (std::size_t i = 0; i < k; ++i) {
    below += term;
    term *= static_cast<double>(n - i) / static_cast<double>(i + 1) * slip / (1 - slip);
  }
  return std::max(0.0, 1 - below);
}

bool sees_a_change(const Reading& reading) {
  return reading.entries.size() > 1 || reading.bar_at_loose_end || reading.bar_at_open_end;
}

std::size_t forward_section(const Model& model, Direction direction, std::size_t section) {
  const std::size_t size = model.side(direction).size();
  return direction == Direction::forward ? section : size - 1 - section;
}

}  // namespace

struct Matcher::Workspace {
  explicit Workspace(const Yarn& yarn) : model(yarn), posterior(model) {}

  Model model;
  Posterior posterior;
  Observed observed;
  std::array<Totals, 2> totals;

  double sum_both(const MatchOptions& options);
  std::array<double, 2> weigh_directions(const MatchOptions& options) const;
  std::size_t likeliest_stretch(const Candidate& candidate) const;
  Length place_of(const Reading& reading, Direction direction, std::size_t boundary) const;
  void list_candidates(const Reading& reading, const std::array<double, 2>& scale, double sum, Placing& placing) const;
  std::vector<Explained> explain(const Path& path, Direction direction) const;
  std::optional<Path> way_to(const Candidate& candidate) const;
  bool fits(const Path& path, const std::vector<Explained>& why, Direction direction) const;
  void refuse(Placing& placing) const;
};

// What turns each side's totals into chances of one common measure.
std::array<double, 2> Matcher::Workspace::weigh_directions(const MatchOptions& options) const {
  const double common = totals[0].sum > 0 ? totals[0].log_scale : totals[1].log_scale;
  std::array<double, 2> scale{};
  for (std::size_t d = 0; d < 2; ++d) {
    if (!(totals[d].sum > 0)) continue;
    scale[d] = model.chance(model.sides[d].direction, options) * std::exp(totals[d].log_scale - common);
  }
  return scale;
}

double Matcher::Workspace::sum_both(const MatchOptions& options) {
  posterior.take(observed, options);
  for (std::size_t d = 0; d < 2; ++d) {
    totals[d].sum = 0;
    if (model.chance(model.sides[d].direction, options) > 0) posterior.run(model.sides[d].direction, totals[d]);
  }
  const std::array<double, 2> scale = weigh_directions(options);
  return scale[0] * totals[0].sum + scale[1] * totals[1].sum;
}

Length Matcher::Workspace::place_of(const Reading& reading, Direction direction, std::size_t boundary) const {
  const Length start = Length::cm(model.side(direction).starts[boundary]);
  Length from_change;
  if (!reading.bar_at_loose_end) from_change = reading.entries.front().length.value_or(Length());
  const Length place = reading.end == End::new_end ? start - from_change : start + from_change;
  return wrap(direction == Direction::forward ? place : -place, model.repeat_total);
}

void Matcher::Workspace::list_candidates(const Reading& reading, const std::array<double, 2>& scale, double sum,
                                         Placing& placing) const {
  for (std::size_t d = 0; d < 2; ++d) {
    if (scale[d] == 0 || totals[d].sum == 0) continue;
    for (std::size_t boundary = 0; boundary < model.sides[d].size(); ++boundary) {
      double chance = 0;
      for (const double value : totals[d].boundary[boundary]) chance += value;
      const Direction direction = model.sides[d].direction;
      placing.candidates.push_back(
          {direction, boundary, place_of(reading, direction, boundary), scale[d] * chance / sum});
    }
  }
  const auto likelier = [](const Candidate& a, const Candidate& b) { return a.probability > b.probability; };
  std::stable_sort(placing.candidates.begin(), placing.candidates.end(), likelier);
  std::size_t keep = 1;
  while (keep < placing.candidates.size() && placing.candidates[keep].probability > worth_listing) ++keep;
  placing.candidates.resize(keep);
}

std::size_t Matcher::Workspace::likeliest_stretch(const Candidate& candidate) const {
  const Stretched& values = totals[candidate.direction == Direction::backward ? 1 : 0].boundary[candidate.boundary];
  return static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin());
}

std::vector<Explained> Matcher::Workspace::explain(const Path& path, Direction direction) const {
  const Side& side = model.side(direction);
  std::vector<Explained> why;
  for (std::size_t index = 0; index < path.entries.size(); ++index) {
    const PathEntry& entry = path.entries[index];
    const ColourId written = observed.entries[index].colour;
    Explained explained;
    explained.entry = index;
    // The section that gave the run its name: the first in working order.
    const bool named_right = side.colour[entry.first] == written;
    explained.misnamed = !named_right;
    std::size_t section = entry.first;
    for (std::size_t n = 0; n < entry.count; ++n, section = side.next(section)) {
      const std::size_t told = forward_section(model, direction, section);
      explained.sections.push_back(told);
      if (n > 0 && side.colour[section] != written) explained.overlooked.push_back(told);
    }
    why.push_back(std::move(explained));
  }
  return why;
}

std::optional<Path> Matcher::Workspace::way_to(const Candidate& candidate) const {
  return best_path(model, observed, candidate.direction, candidate.boundary, likeliest_stretch(candidate));
}

bool Matcher::Workspace::fits(const Path& path, const std::vector<Explained>& why, Direction direction) const {
  const double length_chance =
      path.lengths > 0 ? chi_square_tail(path.chi_square, static_cast<double>(path.lengths)) : 1;
  if (length_chance < no_fit_chance) return false;
  const Side& side = model.side(direction);
  std::size_t slips = 0, sections = 0;
  for (const Explained& explained : why) {
    const PathEntry& entry = path.entries[explained.entry];
    sections += entry.count;
    if (explained.misnamed &&
        side.name[side.at(entry.first, observed.entries[explained.entry].colour)] < unlike_weight) {
      ++slips;
    }
    for (const std::size_t told : explained.overlooked) {
      if (side.overlooked[forward_section(model, direction, told)] <= slip) ++slips;
    }
  }
  const double slip_chance = slips == 0 ? 1 : so_many_slips(slips, sections);
  return slip_chance >= slips_too_rare && slip_chance * length_chance >= both_too_rare;
}

// No fit: nothing is claimed but which entry is furthest off on the path that comes closest.
void Matcher::Workspace::refuse(Placing& placing) const {
  placing.verdict = Verdict::no_fit;
  placing.candidates.clear();
  const std::optional<Path> closest = closest_path(model, observed, Direction::forward);
  if (!closest) {
    placing.why.clear();
    return;
  }
  placing.why = explain(*closest, Direction::forward);
  const Side& side = model.side(Direction::forward);
  const auto how_bad = [&](const Explained& explained) {
    constexpr double a_slip_counts_as = 3;  // standard deviations
    double bad = closest->entries[explained.entry].misfit + (explained.misnamed ? a_slip_counts_as : 0);
    for (const std::size_t section : explained.overlooked) {
      if (side.overlooked[section] <= slip) bad += a_slip_counts_as;
    }
    return bad;
  };
  const auto worst = std::max_element(placing.why.begin(), placing.why.end(),
                                      [&](const Explained& a, const Explained& b) { return how_bad(a) < how_bad(b); });
  placing.why = {*worst};
}

Matcher::Matcher(const Yarn& yarn) : work_(std::make_unique<Workspace>(yarn)) {}
Matcher::~Matcher() = default;

Placing Matcher::match(const Reading& reading, const MatchOptions& options) {
  Workspace& work = *work_;
  observe(reading, options, work.observed);
  Placing placing;
  if (!sees_a_change(reading)) {
    place_without_change(work.model, work.observed, options, placing);
    return placing;
  }
  const double sum = work.sum_both(options);
  if (!(sum > 0)) {
    work.refuse(placing);
    return placing;
  }
  const std::array<double, 2> scale = work.weigh_directions(options);
  work.list_candidates(reading, scale, sum, placing);

  const Candidate& best = placing.best();
  const std::optional<Path> path = work.way_to(best);
  if (path) placing.why = work.explain(*path, best.direction);
  if (!path || !work.fits(*path, placing.why, best.direction)) {
    work.refuse(placing);
    return placing;
  }
  const bool placed = reading.bar_at_loose_end || work.observed.entries.front().known;
  placing.verdict = placed && best.probability >= options.sure ? Verdict::settled : Verdict::unsettled;
  placing.place = best.place;
  placing.spread_sd = reading.bar_at_loose_end ? 0 : std::sqrt(work.observed.entries.front().variance);
  const Length half = Length::cm(normal_quantile(0.95) * placing.spread_sd);
  placing.low = placing.place - half;
  placing.high = placing.place + half;
  if (!placed) {
    placing.ask = Question{Question::Kind::first_length, 0, 0};
    widen_to_section(work.model, reading.end, placing);
  } else if (placing.verdict == Verdict::settled && best.direction == Direction::backward &&
             options.worked == Worked::usual_end && options.wound == Wound::mill) {
    placing.ask = Question{Question::Kind::wrong_way, 0, 0};
  }
  return placing;
}

std::vector<std::vector<Explained>> Matcher::ways(const std::vector<Candidate>& candidates) const {
  std::vector<std::vector<Explained>> result;
  for (const Candidate& candidate : candidates) {
    const std::optional<Path> path = work_->way_to(candidate);
    result.push_back(path ? work_->explain(*path, candidate.direction) : std::vector<Explained>());
  }
  return result;
}

}  // namespace ballchange
