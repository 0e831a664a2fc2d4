#include "slow/strand.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "slow/slow_match.hpp"

namespace ballchange::slow {
namespace {

constexpr double repeats_on_a_strand = 8;

// A section long enough to hold a point picked anywhere on the yarn: normal, weighed by its own length.
Length length_weighted(double mean, double sd, Random& random) {
  const double most = mean + 6 * sd;
  for (;;) {
    const double length = mean + sd * random.normal();
    if (length > 0 && random.uniform() * most < length) return Length::cm(length);
  }
}

std::size_t pick(std::span<const double> weights, Random& random) {
  double all = 0;
  for (const double w : weights) all += w;
  double point = random.uniform() * all;
  for (std::size_t i = 0; i + 1 < weights.size(); ++i) {
    point -= weights[i];
    if (point < 0) return i;
  }
  return weights.size() - 1;
}

Direction pick_direction(const Yarn& yarn, const MatchOptions& options, Random& random) {
  return random.uniform() < backward_chance(yarn, options) ? Direction::backward : Direction::forward;
}

// The step's square over twelve, for the largest step that divides every length.
double rounding_variance(const Reading& reading, const Hand& hand) {
  for (const double step : {1.0, 0.5, 0.25, 0.125, 0.1}) {
    const auto divides = [&](const Entry& entry) {
      if (!entry.length) return true;
      const double steps = *entry.length / hand.unit / step;
      return std::abs(steps - std::round(steps)) < 1e-6;
    };
    if (!std::all_of(reading.entries.begin(), reading.entries.end(), divides)) continue;
    const double length = (step * hand.unit).cm();
    return length * length / 12;
  }
  return 0;
}

}  // namespace

Strand::Strand(const Yarn& yarn, const MatchOptions& options, End end, bool bar, const Hand& hand, Random& random)
    : reckoning_(yarn.reckoning),
      circle_(yarn.repeat),
      naming_(naming_chances(yarn.repeat)),
      options_(options),
      end_(end),
      bar_(bar),
      hand_(hand) {
  do {
    truth_.direction = pick_direction(yarn, options, random);
    circle_ = truth_.direction == Direction::forward ? yarn.repeat : yarn.repeat.mirrored();
    do factor_ = 1 + yarn.ball_plus_minus * random.normal();
    while (factor_ < 0.2);
    grow(random, bar);
    name_runs(random);
    // A bar on the old strand says that what came next was seen to be of another colour.
  } while (bar && end == End::old_end && !seen_apart(sections_.front() + 1, runs_.front().name, random));
  for (std::size_t i = 0; i < runs_.size(); ++i) {
    errors_.push_back(random.normal());
    left_out_.push_back(i > 0 && random.uniform() < hand.leaves_out);
  }

  const Run& outermost = runs_.front();
  const bool from_new = end == End::new_end;
  if (bar) {
    truth_.boundary = from_new ? outermost.sections.front() : outermost.sections.back() + 1;
  } else {
    truth_.boundary = from_new ? runs_[1].sections.front() : outermost.sections.front();
  }
  truth_.boundary %= circle_.size();
  const Length away = bar ? Length() : outermost.length;
  const Length on_circle = circle_.start(truth_.boundary) + (from_new ? -away : away);
  truth_.place = wrap(truth_.direction == Direction::forward ? on_circle : -on_circle, circle_.total());
}

void Strand::grow(Random& random, bool bar) {
  const std::size_t size = circle_.size();
  std::vector<double> means;
  for (const Section& section : circle_.sections()) means.push_back(section.length.cm());
  std::size_t section = bar ? random.below(size) : pick(means, random);
  sections_.assign(1, section);
  lengths_.assign(1, bar ? stretched(section, random) : with_cut_in(section, random));
  for (Length so_far = lengths_[0]; so_far < repeats_on_a_strand * circle_.total(); so_far += lengths_.back()) {
    section = (section + (end_ == End::new_end ? 1 : size - 1)) % size;
    sections_.push_back(section);
    lengths_.push_back(stretched(section, random));
  }
}

Length Strand::stretched(std::size_t section, Random& random) const {
  const Section& s = circle_.sections()[section];
  for (;;) {
    const Length length = factor_ * s.length + random.normal() * s.plus_minus;
    if (length > Length()) return length;
  }
}

Length Strand::with_cut_in(std::size_t section, Random& random) const {
  const Section& s = circle_.sections()[section];
  return random.uniform() * length_weighted(factor_ * s.length.cm(), s.plus_minus.cm(), random);
}

ColourId Strand::named(std::size_t section, Random& random) const {
  return pick(naming_[circle_.sections()[section % circle_.size()].colour], random);
}

bool Strand::seen_apart(std::size_t section, ColourId name, Random& random) const {
  const Length mean = circle_.sections()[section % circle_.size()].length;
  if (random.uniform() < overlooked_chance(mean, reckoning_)) return false;
  return named(section, random) != name;
}

// What somebody sees who follows the strand in working order.
void Strand::name_runs(Random& random) {
  const std::size_t count = sections_.size();
  runs_.clear();
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t at = end_ == End::new_end ? i : count - 1 - i;
    const Section& section = circle_.sections()[sections_[at]];
    const bool seen = i == 0 || random.uniform() >= overlooked_chance(section.length, reckoning_);
    const ColourId name = seen ? named(sections_[at], random) : runs_.back().name;
    if (runs_.empty() || runs_.back().name != name) runs_.push_back({name, {}, {}});
    runs_.back().sections.push_back(sections_[at]);
    runs_.back().length += lengths_[at];
  }
  if (end_ == End::old_end) std::reverse(runs_.begin(), runs_.end());
}

double Strand::written(std::size_t run, Length real) const {
  const double sd = options_.tape.fixed.cm() + options_.tape.share * real.cm();
  const double step = hand_.step * hand_.unit.cm();
  return step * std::max(1.0, std::round((real.cm() + errors_[run] * sd) / step));
}

Reading Strand::finish(Reading reading) const {
  reading.end = end_;
  reading.bar_at_loose_end = bar_;
  const double variance = rounding_variance(reading, hand_);
  for (std::size_t i = 0; i < reading.entries.size(); ++i) {
    reading.entries[i].rounding_variance = reading.entries[i].length ? variance : 0;
    reading.entries[i].written_as = i + 1;
  }
  return reading;
}

Reading Strand::read(Length measured) const { return read(measured, left_out_); }

Reading Strand::read_on(const Reading& before, Length measured) const {
  std::vector<char> left_out(runs_.size(), 0);
  const std::size_t whole = before.entries.size() - (before.bar_at_open_end ? 0 : 1);
  for (std::size_t i = 0; i < whole; ++i) left_out[i] = !before.entries[i].length;
  return read(measured, left_out);
}

Reading Strand::read(Length measured, const std::vector<char>& left_out) const {
  Reading reading;
  Length left = measured;
  for (std::size_t i = 0; i < runs_.size() && (i == 0 || left > Length()); ++i) {
    Entry entry;
    entry.colour = runs_[i].name;
    if (!left_out[i]) entry.length = Length::cm(written(i, std::min(left, runs_[i].length)));
    reading.entries.push_back(entry);
    left -= runs_[i].length;
  }
  return finish(reading);
}

Reading Strand::read_entries(std::size_t entries, bool bar) const {
  Reading reading;
  for (std::size_t i = 0; i < entries; ++i) {
    Entry entry;
    entry.colour = runs_[i].name;
    const bool without = left_out_[i] || (!bar && i + 1 == entries);
    if (!without) entry.length = Length::cm(written(i, runs_[i].length));
    reading.entries.push_back(entry);
  }
  reading.bar_at_open_end = bar;
  return finish(reading);
}

Length Strand::measured_in(std::size_t entries, bool bar) const {
  Length result;
  for (std::size_t i = 0; i < (bar ? entries : entries - 1); ++i) result += runs_[i].length;
  return result;
}

Length Strand::length() const { return measured_in(runs_.size(), true); }

Hand random_hand(Random& random, Reckoning reckoning) {
  Hand hand;
  if (random.uniform() < 0.1) hand.leaves_out = 0.3;
  if (reckoning == Reckoning::stitches) return hand;
  constexpr std::array<double, 4> steps{1, 0.5, 0.25, 0.1};
  const double which = random.uniform();
  if (which < 0.5) return hand;
  if (which < 0.7) hand.unit = 2.54_cm;
  hand.step = steps[random.below(steps.size())];
  return hand;
}

}  // namespace ballchange::slow
