#include "slow/compare.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace ballchange::slow {
namespace {

constexpr double agreed = 1e-6;
// Below this the slow matcher's own cut-off could be seen.
constexpr double least_total = 1e-16;

std::string in_words(const std::vector<Candidate>& candidates) {
  std::string text;
  for (const Candidate& c : candidates) {
    if (c.probability < 1e-3) continue;
    text += fmt::format(" {}{}@{:.4f}={:.8f}", c.direction == Direction::forward ? 'f' : 'b', c.boundary, c.place.cm(),
                        c.probability);
  }
  return text;
}

const Candidate* find(const std::vector<Candidate>& in, const Candidate& like) {
  const auto found = std::find_if(in.begin(), in.end(), [&](const Candidate& c) {
    return c.direction == like.direction && c.boundary == like.boundary;
  });
  return found == in.end() ? nullptr : &*found;
}

std::string difference(const Yarn& yarn, const Reading& reading, const Placing& fast, const Posterior& slow) {
  const bool placed = reading.bar_at_loose_end || reading.entries.front().length;
  for (const Candidate& expected : slow.candidates) {
    const Candidate* found = find(fast.candidates, expected);
    if (!found && expected.probability > 0.01 + agreed) return "a candidate is missing";
    if (!found) continue;
    if (std::abs(found->probability - expected.probability) > agreed) return "a probability differs";
    const Length apart = nearest(found->place - expected.place, yarn.repeat.total());
    if (placed && std::abs(apart.cm()) > agreed) return "a place differs";
  }
  if (fast.candidates.empty()) return "no candidate";
  if (slow.candidates.front().probability - find(slow.candidates, fast.best())->probability > agreed)
    return "the best is not the best";
  const auto worse = [](const Candidate& a, const Candidate& b) { return a.probability > b.probability; };
  if (!std::is_sorted(fast.candidates.begin(), fast.candidates.end(), worse)) return "not the best first";
  for (std::size_t i = 1; i < fast.candidates.size(); ++i)
    if (fast.candidates[i].probability < 0.01 - agreed) return "a candidate below 1 %";
  return "";
}

// Anything that can be written down about this yarn, likely or not.
Reading any_reading(const Yarn& yarn, Random& random) {
  Reading reading;
  reading.end = random.below(2) == 0 ? End::new_end : End::old_end;
  const std::size_t entries = 1 + random.below(4);
  for (std::size_t i = 0; i < entries; ++i) {
    Entry entry;
    entry.colour = random.below(yarn.repeat.colours().size());
    if (i > 0 && entry.colour == reading.entries.back().colour) continue;
    const Section& like = yarn.repeat.sections()[random.below(yarn.repeat.size())];
    const double part = i == 0 ? random.uniform() : 0.8 + 0.4 * random.uniform();
    if (random.uniform() < 0.9) {
      entry.length = std::max(0.5_cm, part * like.length);
      entry.rounding_variance = random.below(2) == 0 ? 1.0 / 12 : 0;
    }
    reading.entries.push_back(entry);
  }
  reading.bar_at_loose_end = random.uniform() < 0.2;
  reading.bar_at_open_end = random.uniform() < 0.3;
  return reading;
}

}  // namespace

Comparison compare(const Yarn& yarn, Matcher& matcher, const Reading& reading, const MatchOptions& options) {
  const Posterior slow = slow_match(yarn, reading, options);
  const Placing fast = matcher.match(reading, options);
  if (slow.candidates.empty()) return {false, fast.verdict == Verdict::settled ? "settled without a change seen" : ""};
  if (slow.total < least_total || fast.verdict == Verdict::no_fit) return {};
  const std::string what = difference(yarn, reading, fast, slow);
  if (what.empty()) return {true, ""};
  return {true, fmt::format("{}\n{}\nfast:{}\nslow:{}", what, in_words(yarn, reading), in_words(fast.candidates),
                            in_words(slow.candidates))};
}

std::string in_words(const Yarn& yarn, const Reading& reading) {
  std::string text =
      fmt::format("{} +- {:.6f}:", yarn.reckoning == Reckoning::stitches ? "st" : "cm", yarn.ball_plus_minus);
  for (const Section& s : yarn.repeat.sections())
    text +=
        fmt::format(" {} {:.6f} +- {:.6f},", yarn.repeat.colours()[s.colour].name, s.length.cm(), s.plus_minus.cm());
  for (const Colour& c : yarn.repeat.colours())
    if (c.shade) text += fmt::format(" {}=#{:02x}{:02x}{:02x}", c.name, c.shade->red, c.shade->green, c.shade->blue);
  text += reading.end == End::new_end ? "\nnew:" : "\nold:";
  if (reading.bar_at_loose_end) text += " |";
  for (const Entry& e : reading.entries) {
    text += ' ' + yarn.repeat.colours()[e.colour].name;
    if (e.length) text += fmt::format(" {:.6f} ({:.6f})", e.length->cm(), e.rounding_variance);
    text += ',';
  }
  return text + (reading.bar_at_open_end ? " |" : "");
}

Case random_case(Random& random) {
  Yarn yarn = random_yarn(random, {.fewest_sections = 2, .most_sections = 6});
  MatchOptions options;
  const double kind = random.uniform();
  if (kind < 0.2) options.wound = Wound::hand;
  if (kind > 0.8) options.worked = Worked::other_end;
  if (random.uniform() < 0.3) return {yarn, any_reading(yarn, random), options};
  Hand hand = random_hand(random, yarn.reckoning);
  if (random.uniform() < 0.3) hand.leaves_out = 0.3;
  const End end = random.below(2) == 0 ? End::new_end : End::old_end;
  const Strand strand(yarn, options, end, random.uniform() < 0.2, hand, random);
  const double stop = random.uniform();
  const std::size_t entries = 1 + random.below(4);
  Reading reading = strand.read_entries(entries, stop < 0.3);
  if (stop > 0.5) {
    const Length until = strand.measured_in(entries, false);
    reading = strand.read(until + random.uniform() * (strand.measured_in(entries, true) - until));
  }
  if (random.uniform() < 0.05) reading.entries.front().length.reset();
  return {yarn, reading, options};
}

Yarn small_yarn() {
  const std::vector<Colour> colours{
      {"teal", Shade{0x2f, 0x6f, 0x73}}, {"lagoon", Shade{0x36, 0x79, 0x7c}}, {"cream", Shade{0xef, 0xe6, 0xcf}}};
  const std::vector<Section> sections{{0, 20_cm, 2_cm}, {1, 9_cm, 1_cm}, {2, 4_cm, 0.4_cm}};
  return Yarn{.name = "Small", .fibre = "", .ball_mass = {}, .ball_length = {}, .repeat = Repeat(colours, sections)};
}

void every_reading(const Yarn& yarn, const std::vector<std::optional<Length>>& lengths, std::size_t most_entries,
                   const std::function<void(const Reading&)>& visit) {
  Reading reading;
  const std::function<void()> go_on = [&] {
    if (!reading.entries.empty()) visit(reading);
    if (reading.entries.size() == most_entries) return;
    for (ColourId colour = 0; colour < yarn.repeat.colours().size(); ++colour) {
      if (!reading.entries.empty() && reading.entries.back().colour == colour) continue;
      for (const std::optional<Length>& length : lengths) {
        reading.entries.push_back({colour, length, length ? 1.0 / 12 : 0, reading.entries.size() + 1});
        go_on();
        reading.entries.pop_back();
      }
    }
  };
  for (const End end : {End::new_end, End::old_end}) {
    for (const unsigned bars : {0U, 1U, 2U, 3U}) {
      reading.end = end;
      reading.bar_at_loose_end = bars % 2 == 1;
      reading.bar_at_open_end = bars / 2 == 1;
      go_on();
    }
  }
}

}  // namespace ballchange::slow
