#include "slow/continuation.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "slow/calibration.hpp"
#include "slow/slow_match.hpp"

namespace ballchange::slow {
namespace {

constexpr double repeats_beyond = 4;

struct Drawn {
  Path path;
  double factor = 1;
};

struct Known {
  double weight = 0;  // of this path and all before it
  Path path;
};

std::vector<Known> all_paths(const Yarn& yarn, const Reading& reading, const MatchOptions& options) {
  std::vector<Known> known;
  double so_far = 0;
  each_path(yarn, reading, options, [&](const Path& path) {
    for (const double w : path.weight) so_far += w;
    known.push_back({so_far, path});
  });
  return known;
}

Drawn draw(const std::vector<Known>& known, const Stretched& factors, Random& random) {
  const double point = random.uniform() * known.back().weight;
  const auto at = std::upper_bound(known.begin(), known.end(), point,
                                   [](double value, const Known& k) { return value < k.weight; });
  const Path& path = (at == known.end() ? known.back() : *at).path;
  double all = 0;
  for (const double w : path.weight) all += w;
  double left = random.uniform() * all;
  std::size_t f = 0;
  while (f + 1 < stretches && (left -= path.weight[f]) >= 0) ++f;
  return {path, factors[f]};
}

// The strand beyond what was read, on one path.
class Beyond {
 public:
  Beyond(const Yarn& yarn, const Reading& reading, const MatchOptions& options, const Drawn& drawn, Random& random)
      : circle_(drawn.path.direction == Direction::forward ? yarn.repeat : yarn.repeat.mirrored()),
        naming_(naming_chances(circle_)),
        reckoning_(yarn.reckoning),
        reading_(reading),
        options_(options),
        drawn_(drawn),
        random_(random) {}

  // How much of the open entry was not measured, given that what was measured is there.
  Length rest() {
    if (reading_.bar_at_open_end) return {};
    const bool from_new = reading_.end == End::new_end;
    const std::vector<std::size_t>& starts = drawn_.path.starts;
    const std::size_t from = from_new ? starts.back() : starts.front();
    const std::size_t to = !from_new && starts.size() > 1 ? starts[1] : drawn_.path.last + 1;
    const std::optional<Length>& read = reading_.entries.back().length;
    for (;;) {
      Length all;
      for (std::size_t k = from; k < to; ++k) all += stretched(k);
      const Length rest = taped(all) - (read ? *read : Length());
      if (rest > Length()) return rest;
    }
  }

  std::vector<Run> runs() { return reading_.end == End::new_end ? after_new() : before_old(); }

 private:
  [[nodiscard]] const Section& section(std::size_t k) const { return circle_.sections()[k % circle_.size()]; }
  Length stretched(std::size_t k) {
    for (;;) {
      const Length length = drawn_.factor * section(k).length + random_.normal() * section(k).plus_minus;
      if (length > Length()) return length;
    }
  }
  Length taped(Length real) { return real + random_.normal() * (options_.tape.fixed + options_.tape.share * real); }
  [[nodiscard]] bool overlooks(std::size_t k) {
    return random_.uniform() < overlooked_chance(section(k).length, reckoning_);
  }
  ColourId name(std::size_t k) {
    const std::vector<double>& chances = naming_[section(k).colour];
    double left = random_.uniform();
    ColourId id = 0;
    while (id + 1 < chances.size() && (left -= chances[id]) >= 0) ++id;
    return id;
  }
  void add(std::vector<Run>& runs, std::size_t k, std::optional<ColourId> seen_as) {
    if (seen_as && (runs.empty() || runs.back().name != *seen_as)) runs.push_back({*seen_as, {}, {}});
    runs.back().sections.push_back(k % circle_.size());
    runs.back().length += stretched(k);
  }

  // The first section beyond was seen, under another name than the last entry's.
  std::vector<Run> after_new() {
    std::vector<Run> runs;
    const ColourId last_name = reading_.entries.back().colour;
    std::size_t k = drawn_.path.last + 1;
    ColourId other = name(k);
    while (other == last_name) other = name(k);
    add(runs, k, other);
    const std::size_t end = k + static_cast<std::size_t>(repeats_beyond) * circle_.size();
    while (++k < end) add(runs, k, overlooks(k) ? std::nullopt : std::optional(name(k)));
    return taped(runs);
  }
  // The nearest one seen before was seen under another name; those passed over belong to it.
  std::vector<Run> before_old() {
    const ColourId open_name = reading_.entries.back().colour;
    const std::size_t first =
        drawn_.path.starts.front() + (static_cast<std::size_t>(repeats_beyond) + 1) * circle_.size();
    const std::size_t far = first - static_cast<std::size_t>(repeats_beyond) * circle_.size();
    for (;;) {
      std::vector<Run> runs;
      for (std::size_t k = far; k < first; ++k)
        add(runs, k, k > far && overlooks(k) ? std::nullopt : std::optional(name(k)));
      if (runs.back().name == open_name) continue;
      std::reverse(runs.begin(), runs.end());
      return taped(runs);
    }
  }
  std::vector<Run> taped(std::vector<Run> runs) {
    for (Run& run : runs) run.length = std::max(Length::cm(0.1), taped(run.length));
    return runs;
  }

  Repeat circle_;
  std::vector<std::vector<double>> naming_;
  Reckoning reckoning_;
  const Reading& reading_;
  const MatchOptions& options_;
  const Drawn& drawn_;
  Random& random_;
};

double rounding_variance(const Reading& reading) {
  for (const Entry& entry : reading.entries)
    if (entry.length) return entry.rounding_variance;
  return 1.0 / 12;
}

}  // namespace

Reading Continuation::longer(const Reading& reading, Length more) const {
  Reading result = reading;
  const double variance = rounding_variance(reading);
  const double step = std::sqrt(12 * variance);
  const auto write = [&](Entry& entry, Length length) {
    entry.length = step > 0 ? Length::cm(step * std::max(1.0, std::round(length.cm() / step))) : length;
    entry.rounding_variance = variance;
  };
  if (!reading.bar_at_open_end) {
    Entry& open = result.entries.back();
    write(open, (open.length ? *open.length : Length()) + std::min(more, rest_));
  }
  result.bar_at_open_end = false;
  Length left = more - rest_;
  for (const Run& run : beyond_) {
    if (left <= Length()) break;
    result.entries.push_back({run.name, {}, 0, result.entries.size() + 1});
    write(result.entries.back(), std::min(left, run.length));
    left -= run.length;
  }
  return result;
}

std::vector<Continuation> continuations(const Yarn& yarn, const Reading& reading, const MatchOptions& options,
                                        std::size_t count, Random& random) {
  std::vector<Continuation> result;
  const std::vector<Known> known = all_paths(yarn, reading, options);
  if (known.empty()) return result;
  const Stretched factors = stretch_factors(yarn.ball_plus_minus);
  for (std::size_t i = 0; i < count; ++i) {
    const Drawn drawn = draw(known, factors, random);
    Beyond beyond(yarn, reading, options, drawn, random);
    Continuation continuation;
    continuation.rest_ = beyond.rest();
    continuation.beyond_ = beyond.runs();
    result.push_back(std::move(continuation));
  }
  return result;
}

double settled_after(const Yarn& yarn, const Reading& reading, const MatchOptions& options,
                     const std::vector<Continuation>& continuations, Length more) {
  Matcher matcher(yarn);
  std::size_t settled = 0;
  for (const Continuation& c : continuations)
    settled += matcher.match(c.longer(reading, more), options).verdict == Verdict::settled;
  return static_cast<double>(settled) / static_cast<double>(continuations.size());
}

std::optional<Length> least_that_settles(const Yarn& yarn, const Reading& reading, const MatchOptions& options,
                                         const std::vector<Continuation>& continuations, Length step, Length most) {
  for (Length more = step; more <= most; more += step)
    if (settled_after(yarn, reading, options, continuations, more) >= 0.8) return more;
  return std::nullopt;
}

std::vector<MoreAsked> least_and_asked(std::uint64_t seed, std::size_t readings) {
  constexpr std::size_t ways = 120;
  std::vector<MoreAsked> result;
  Random random(seed);
  while (result.size() < readings) {
    const Sample sample = random_sample(random);
    const Reading& reading = sample.reading;
    if (reading.entries.size() > 5) continue;
    if (Matcher(sample.yarn).match(reading, sample.options).verdict != Verdict::unsettled) continue;
    const std::optional<Length> asked = place_reading(sample.yarn, reading, sample.options).measure_more;
    if (!asked) continue;
    const auto go_on = continuations(sample.yarn, reading, sample.options, ways, random);
    if (go_on.empty()) continue;
    const Length repeat = sample.yarn.repeat.total();
    result.push_back({*asked, least_that_settles(sample.yarn, reading, sample.options, go_on, repeat / 100, 3 * repeat),
                      settled_after(sample.yarn, reading, sample.options, go_on, *asked)});
  }
  return result;
}

}  // namespace ballchange::slow
