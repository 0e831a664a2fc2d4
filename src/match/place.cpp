#include "match/place.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "base/normal.hpp"
#include "match/fit.hpp"
#include "match/path.hpp"
#include "match/unseen.hpp"

namespace ballchange {

using namespace matching;

namespace {

constexpr double worth_listing = 0.01;  // candidates above this are told
constexpr double widest = 0.25;         // spread, of what repeats: with more the interval leaves hardly anything out

// The way a ball runs as it is worked; a ball wound by hand may run either way.
std::optional<Direction> expected_direction(const MatchOptions& options) {
  if (options.wound == Wound::hand) return std::nullopt;
  return options.worked == Worked::usual_end ? Direction::forward : Direction::backward;
}

void claim_nothing(Placing& placing) {
  placing.verdict = Verdict::no_fit;
  placing.candidates.clear();
  placing.why.clear();
  placing.ask.reset();
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
  double sureness(const Placing& placing) const;
};

// What turns each side's totals into chances of one common measure.
std::array<double, 2> Matcher::Workspace::weigh_directions(const MatchOptions& options) const {
  double common = -std::numeric_limits<double>::infinity();
  for (const Totals& one : totals) {
    if (one.sum > 0) common = std::max(common, one.log_scale);
  }
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
  const Side& side = model.side(direction);
  const std::size_t beside = reading.end == End::new_end ? side.previous(boundary) : boundary;
  // Without the first length: somewhere in the section beside the change, told as its middle.
  Length from_change = Length::cm(side.mean[beside] / 2);
  if (reading.bar_at_loose_end) from_change = Length();
  if (!reading.bar_at_loose_end && reading.entries.front().length) from_change = *reading.entries.front().length;
  const Length start = Length::cm(side.starts[boundary]);
  const Length place = reading.end == End::new_end ? start - from_change : start + from_change;
  return wrap(direction == Direction::forward ? place : -place, model.repeat_total);
}

void Matcher::Workspace::list_candidates(const Reading& reading, const std::array<double, 2>& scale, double sum,
                                         Placing& placing) const {
  placing.candidates.reserve(2 * model.sides[0].size());
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
  placing.sureness = sureness(placing);
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
      const std::size_t in_profile = forward_section(model, direction, section);
      explained.sections.push_back(in_profile);
      if (n > 0 && side.colour[section] != written) explained.overlooked.push_back(in_profile);
    }
    why.push_back(std::move(explained));
  }
  return why;
}

std::optional<Path> Matcher::Workspace::way_to(const Candidate& candidate) const {
  return best_path(model, observed, candidate.direction, candidate.boundary, likeliest_stretch(candidate));
}

// Chance of the best candidate together with those that come to the same: a place one shorter repeat further on where
// the repeat hides some, the mirrored place where the repeat mirrors itself within the noise.
double Matcher::Workspace::sureness(const Placing& placing) const {
  const auto as_forward = [&](const Candidate& candidate) {
    const bool turned = model.axis && candidate.direction == Direction::backward;
    return turned ? *model.axis - candidate.place : candidate.place;
  };
  const Candidate& best = placing.best();
  double sum = 0;
  for (const Candidate& candidate : placing.candidates) {
    const bool same_way = model.axis || candidate.direction == best.direction;
    const Length apart = nearest(as_forward(candidate) - as_forward(best), model.period);
    if (same_way && abs(apart) <= model.margin) sum += candidate.probability;
  }
  return std::min(sum, 1.0);
}

Matcher::Matcher(const Yarn& yarn) : work_(std::make_unique<Workspace>(yarn)) {}
Matcher::~Matcher() = default;

Placing Matcher::match(const Reading& reading, const MatchOptions& options) {
  Workspace& work = *work_;
  observe(reading, options, work.observed);
  Placing placing;
  if (!work.observed.sees_a_change()) {
    if (!place_without_change(work.model, work.observed, options, placing)) claim_nothing(placing);
    return placing;
  }
  const double sum = work.sum_both(options);
  if (!(sum > 0)) {
    claim_nothing(placing);
    return placing;
  }
  const std::array<double, 2> scale = work.weigh_directions(options);
  work.list_candidates(reading, scale, sum, placing);

  const Candidate& best = placing.best();
  const std::optional<Path> path = work.way_to(best);
  if (path) placing.why = work.explain(*path, best.direction);
  if (!path || !fits(work.model, work.observed, *path, best.direction)) {
    claim_nothing(placing);
    return placing;
  }
  const bool placed = reading.bar_at_loose_end || work.observed.entries.front().known;
  placing.place = best.place;
  placing.spread_sd = reading.bar_at_loose_end ? 0 : std::sqrt(work.observed.entries.front().variance);
  const bool sure = placing.sureness >= options.sure && placing.spread_sd <= widest * work.model.period.cm();
  placing.verdict = placed && sure ? Verdict::settled : Verdict::unsettled;
  const Length half = Length::cm(normal_quantile(0.95) * placing.spread_sd);
  placing.low = placing.place - half;
  placing.high = placing.place + half;
  if (!placed) {
    placing.ask = Question{Question::Kind::first_length, 0, 0};
    widen_to_section(work.model, reading.end, placing);
  } else if (placing.verdict == Verdict::settled && !work.model.axis &&
             best.direction != expected_direction(options).value_or(best.direction)) {
    placing.ask = Question{Question::Kind::wrong_way, 0, 0};
  }
  return placing;
}

std::size_t Matcher::in_the_way(const MatchOptions& options) const {
  return worst_entry(work_->model, work_->observed, options);
}

const Model& Matcher::model() const { return work_->model; }

std::uint64_t Matcher::work() const { return work_->posterior.work(); }

std::vector<std::vector<Explained>> Matcher::ways(const std::vector<Candidate>& candidates) const {
  std::vector<std::vector<Explained>> result;
  for (const Candidate& candidate : candidates) {
    const std::optional<Path> path = work_->way_to(candidate);
    result.push_back(path ? work_->explain(*path, candidate.direction) : std::vector<Explained>());
  }
  return result;
}

}  // namespace ballchange
