#include "slow/slow_match.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <utility>

namespace ballchange::slow {
namespace {

// A run of sections under one name ends where its chance falls below the first; a path is left where its weight falls
// below the second: both far below anything a comparison to 1e-6 can see.
constexpr double least_run = 1e-18;
constexpr double least_path = 1e-30;

double below(double x, double mean, double variance) {
  if (variance <= 0) return x >= mean ? 1 : 0;
  return 0.5 * std::erfc((mean - x) / std::sqrt(2 * variance));
}
double above(double x, double mean, double variance) {
  if (variance <= 0) return x <= mean ? 1 : 0;
  return 0.5 * std::erfc((x - mean) / std::sqrt(2 * variance));
}
double density(double x, double mean, double variance) {
  return std::exp(-(x - mean) * (x - mean) / (2 * variance)) / std::sqrt(2 * std::numbers::pi * variance);
}

// Mean and variance of some sections taken together, before stretching.
struct Sum {
  double mean = 0, variance = 0;
};

class Walk {
 public:
  Walk(const Yarn& yarn, const Reading& reading, const MatchOptions& options, Direction direction,
       const std::function<void(const Path&)>& visit)
      : repeat_(direction == Direction::forward ? yarn.repeat : yarn.repeat.mirrored()),
        reading_(reading),
        options_(options),
        naming_(naming_chances(repeat_)),
        factors_(stretch_factors(yarn.ball_plus_minus)),
        written_(reading.entries),
        known_(reading.entries.size() * yarn.repeat.size()),
        visit_(visit) {
    if (reading.end == End::old_end) std::reverse(written_.begin(), written_.end());
    for (const Section& section : repeat_.sections())
      overlooked_.push_back(overlooked_chance(section.length, yarn.reckoning));
    const double backward = backward_chance(yarn, options);
    const Stretched weights = stretch_weights();
    for (std::size_t f = 0; f < stretches; ++f)
      start_[f] = weights[f] * (direction == Direction::forward ? 1 - backward : backward);
    path_.direction = direction;
  }

  void run() {
    for (std::size_t first = 0; first < repeat_.size(); ++first) {
      Stretched weight = start_;
      if (!new_end()) scale(weight, other_name_before(first, written_.front().colour));
      path_.starts.clear();
      entry(0, first, weight);
    }
  }

 private:
  [[nodiscard]] bool new_end() const { return reading_.end == End::new_end; }
  [[nodiscard]] std::size_t at(std::size_t section) const { return section % repeat_.size(); }
  [[nodiscard]] double overlooked(std::size_t section) const { return overlooked_[at(section)]; }
  [[nodiscard]] double named(std::size_t section, ColourId name) const {
    return naming_[repeat_.sections()[at(section)].colour][name];
  }
  static void scale(Stretched& weight, double by) {
    for (double& w : weight) w *= by;
  }

  // A section that starts an entry was seen; the one under the new strand's loose end always is.
  [[nodiscard]] double starts_entry(std::size_t section, std::size_t entry) const {
    const double seen = new_end() && entry == 0 ? 1 : 1 - overlooked(section);
    return seen * named(section, written_[entry].colour);
  }
  // One that goes on under the same name was overlooked, or seen under that name.
  [[nodiscard]] double goes_on(std::size_t section, ColourId name) const {
    return overlooked(section) + (1 - overlooked(section)) * named(section, name);
  }
  // The nearest section seen before `first` has another name; any number between was overlooked.
  [[nodiscard]] double other_name_before(std::size_t first, ColourId name) const {
    double chance = 0;
    double passed_over = 1;
    for (std::size_t back = 1; passed_over > least_run; ++back) {
      const std::size_t section = first + repeat_.size() * back - back;  // first - back, kept positive
      chance += passed_over * (1 - overlooked(section)) * (1 - named(section, name));
      passed_over *= overlooked(section);
    }
    return chance;
  }

  [[nodiscard]] Sum sum(std::size_t from, std::size_t to) const {
    Sum result;
    for (std::size_t k = from; k < to; ++k) {
      const Section& section = repeat_.sections()[at(k)];
      result.mean += section.length.cm();
      result.variance += section.plus_minus.cm() * section.plus_minus.cm();
    }
    return result;
  }

  // length_chance for every factor. Kept once known: the walk asks for the same ones over and over.
  const Stretched& length_chances(std::size_t entry, std::size_t from, std::size_t last) {
    std::vector<Stretched>& known = known_[entry * repeat_.size() + at(from)];
    while (known.size() <= last - from) {
      Stretched chances{};
      for (std::size_t f = 0; f < stretches; ++f)
        chances[f] = length_chance(entry, from, from + known.size(), factors_[f]);
      known.push_back(chances);
    }
    return known[last - from];
  }
  // The chance of an entry's length when it is made of the sections from .. last.
  [[nodiscard]] double length_chance(std::size_t entry, std::size_t from, std::size_t last, double f) const {
    const Entry& e = written_[entry];
    const bool first_entry = entry == 0;
    const bool last_entry = entry + 1 == written_.size();
    const bool at_loose_end = new_end() ? first_entry : last_entry;
    const bool at_open_end = new_end() ? last_entry : first_entry;
    if (at_loose_end && !reading_.bar_at_loose_end) return cut_chance(e, from, last, f);
    if (!e.length) return 1;
    const Sum block = sum(from, last + 1);
    const double variance = block.variance + tape_variance(e);
    if (at_open_end && !reading_.bar_at_open_end) return above(e.length->cm(), f * block.mean, variance);
    return density(e.length->cm(), f * block.mean, variance);
  }
  // The loose end lies inside the outermost section; the others are whole.
  [[nodiscard]] double cut_chance(const Entry& e, std::size_t from, std::size_t last, double f) const {
    const std::size_t cut = new_end() ? from : last;
    const Sum section = sum(cut, cut + 1);
    const double repeat_length = repeat_.total().cm();
    if (!e.length) return section.mean / repeat_length;
    const double y = e.length->cm();
    const double tape = tape_variance(e);
    const double per_cm = 1 / (f * repeat_length);
    if (from == last) return per_cm * above(y, f * section.mean, section.variance + tape);
    const Sum others = new_end() ? sum(from + 1, last + 1) : sum(from, last);
    const double both_mean = others.mean + section.mean;
    const double both_variance = others.variance + section.variance;
    return per_cm * (below(y, f * others.mean, others.variance + tape) - below(y, f * both_mean, both_variance + tape));
  }
  [[nodiscard]] double tape_variance(const Entry& e) const {
    const double sd = options_.tape.fixed.cm() + options_.tape.share * e.length->cm();
    return sd * sd + e.rounding_variance;
  }

  // Gives the entry its run of sections from `first` on, of every number there can be, then goes on to the next.
  void entry(std::size_t index, std::size_t first, const Stretched& before) {
    const ColourId name = written_[index].colour;
    path_.starts.push_back(first);
    double names = starts_entry(first, index);
    for (std::size_t last = first; names > least_run; ++last) {
      const Stretched& lengths = length_chances(index, first, last);
      Stretched weight = before;
      for (std::size_t f = 0; f < stretches; ++f) weight[f] *= names * lengths[f];
      if (*std::max_element(weight.begin(), weight.end()) > least_path) after(index, last, weight);
      names *= goes_on(last + 1, name);
    }
    path_.starts.pop_back();
  }

  void after(std::size_t index, std::size_t last, Stretched& weight) {
    if (index + 1 < written_.size()) return entry(index + 1, last + 1, weight);
    // Where the strand goes on behind the last entry, what follows was seen under another name.
    if (new_end() || reading_.bar_at_loose_end) scale(weight, 1 - goes_on(last + 1, written_[index].colour));
    path_.last = last;
    path_.weight = weight;
    visit_(path_);
  }

  Repeat repeat_;
  const Reading& reading_;
  const MatchOptions& options_;
  std::vector<std::vector<double>> naming_;
  std::vector<double> overlooked_;
  Stretched factors_;
  Stretched start_{};
  std::vector<Entry> written_;  // in working order
  std::vector<std::vector<Stretched>> known_;
  const std::function<void(const Path&)>& visit_;
  Path path_;
};

Length place_at(const Repeat& forward, Direction direction, std::size_t boundary, const Reading& reading) {
  const Repeat circle = direction == Direction::forward ? forward : forward.mirrored();
  const Entry& outermost = reading.entries.front();
  Length away;
  if (!reading.bar_at_loose_end && outermost.length) away = *outermost.length;
  const Length on_circle = circle.start(boundary) + (reading.end == End::new_end ? -away : away);
  return wrap(direction == Direction::forward ? on_circle : -on_circle, forward.total());
}

}  // namespace

Stretched stretch_factors(double ball_plus_minus) {
  Stretched result{};
  for (std::size_t i = 0; i < stretches; ++i) result[i] = 1 + ball_plus_minus * (-5 + 0.25 * static_cast<double>(i));
  return result;
}

Stretched stretch_weights() {
  Stretched result{};
  for (std::size_t i = 0; i < stretches; ++i) {
    const double z = -5 + 0.25 * static_cast<double>(i);
    result[i] = std::exp(-z * z / 2);
  }
  const double all = std::accumulate(result.begin(), result.end(), 0.0);
  for (double& w : result) w /= all;
  return result;
}

std::vector<std::vector<double>> naming_chances(const Repeat& repeat) {
  const std::vector<Colour>& colours = repeat.colours();
  std::vector<std::vector<double>> chance(colours.size(), std::vector<double>(colours.size(), 0));
  for (std::size_t real = 0; real < colours.size(); ++real) {
    for (std::size_t written = 0; written < colours.size(); ++written) {
      double& w = chance[real][written];
      if (real == written) {
        w = 1;
        continue;
      }
      w = 0.01 / static_cast<double>(colours.size() - 1);
      if (!colours[real].shade || !colours[written].shade) continue;
      const double difference = colour_difference(to_lab(*colours[real].shade), to_lab(*colours[written].shade));
      w += 0.3 * std::exp(-(difference / 5) * (difference / 5));
    }
    const double all = std::accumulate(chance[real].begin(), chance[real].end(), 0.0);
    for (double& w : chance[real]) w /= all;
  }
  return chance;
}

double overlooked_chance(Length mean, Reckoning reckoning) {
  const double easily = reckoning == Reckoning::stitches ? 3 : 5;
  return mean.cm() <= easily ? 0.20 : 0.01;
}

double backward_chance(const Yarn& yarn, const MatchOptions& options) {
  if (mirrors_exactly(yarn.repeat)) return 0;
  if (options.wound == Wound::hand) return 0.5;
  return options.worked == Worked::usual_end ? 0.02 : 0.98;
}

void each_path(const Yarn& yarn, const Reading& reading, const MatchOptions& options,
               const std::function<void(const Path&)>& visit) {
  const bool change_seen = reading.entries.size() > 1 || reading.bar_at_loose_end || reading.bar_at_open_end;
  if (!change_seen) return;
  for (const Direction direction : {Direction::forward, Direction::backward}) {
    if (direction == Direction::backward && backward_chance(yarn, options) <= 0) continue;
    Walk(yarn, reading, options, direction, visit).run();
  }
}

std::size_t boundary_of(const Path& path, const Reading& reading, std::size_t sections) {
  const std::size_t behind = path.last + 1;
  if (reading.end == End::old_end) return (reading.bar_at_loose_end ? behind : path.starts.back()) % sections;
  if (reading.bar_at_loose_end) return path.starts.front() % sections;
  return (path.starts.size() > 1 ? path.starts[1] : behind) % sections;
}

Posterior slow_match(const Yarn& yarn, const Reading& reading, const MatchOptions& options) {
  std::map<std::pair<Direction, std::size_t>, double> weights;
  each_path(yarn, reading, options, [&](const Path& path) {
    const std::size_t boundary = boundary_of(path, reading, yarn.repeat.size());
    weights[{path.direction, boundary}] += std::accumulate(path.weight.begin(), path.weight.end(), 0.0);
  });
  Posterior result;
  for (const auto& [where, weight] : weights) result.total += weight;
  for (const auto& [where, weight] : weights) {
    const Length place = place_at(yarn.repeat, where.first, where.second, reading);
    result.candidates.push_back({where.first, where.second, place, weight / result.total});
  }
  std::stable_sort(result.candidates.begin(), result.candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.probability > b.probability; });
  return result;
}

}  // namespace ballchange::slow
