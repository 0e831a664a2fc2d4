#include <algorithm>
#include <cmath>
#include <ctime>
#include <limits>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "allocations.hpp"
#include "base/random.hpp"
#include "match/place.hpp"

// How many readings `place` manages in a second of one processor, and how often it asks for memory: a yarn of 14
// sections, readings of 8 entries.

namespace ballchange {
namespace {

constexpr std::size_t kEntries = 8;
constexpr std::size_t kReadings = 4000;
constexpr int kRounds = 5;
constexpr std::uint64_t kSeed = 20260302;

// Nine colours, five of them twice in the repeat, so that a reading has to be told apart from others.
Yarn fourteen_sections() {
  const std::vector<std::size_t> order = {0, 1, 2, 3, 4, 1, 5, 3, 0, 6, 2, 7, 4, 8};
  const std::vector<double> lengths = {62, 9, 48, 7, 71, 12, 55, 4, 80, 6, 38, 10, 66, 14};
  std::vector<Colour> colours;
  for (int i = 0; i < 9; ++i) {
    const auto part = [i](int k) { return static_cast<std::uint8_t>((37 + 71 * i * k) % 256); };
    colours.push_back({fmt::format("colour{}", i), Shade{part(1), part(2), part(3)}});
  }
  std::vector<Section> sections;
  for (std::size_t k = 0; k < order.size(); ++k)
    sections.push_back({order[k], Length::cm(lengths[k]), Length::cm(0.5 + 0.06 * lengths[k])});
  Repeat repeat(colours, sections);
  return {
      .name = "Bench", .fibre = "", .felts = false, .ball_mass = {}, .ball_length = {}, .repeat = std::move(repeat)};
}

// Whole centimetres, as a person writes them. One in ten of the sections inside is overlooked, read as part of the one
// before.
Reading read_from(const Repeat& repeat, Random& chance) {
  Reading reading;
  auto& entries = reading.entries;
  for (std::size_t section = chance.below(repeat.size()); entries.size() < kEntries;
       section = (section + 1) % repeat.size()) {
    const Section& at = repeat.sections()[section];
    const bool first = entries.empty();
    const double share_seen = first ? chance.uniform() : 1;
    const double real = (at.length + at.plus_minus * chance.normal()).cm() * share_seen;
    const Length length = Length::cm(std::max(1.0, std::round(real)));
    if (!first && (chance.uniform() < 0.1 || entries.back().colour == at.colour))
      *entries.back().length += length;
    else
      entries.push_back({at.colour, length, 1.0 / 12, entries.size() + 1});
  }
  return reading;
}

struct Figures {
  std::size_t readings = 0;
  double per_second = 0;
  std::size_t fewest = std::numeric_limits<std::size_t>::max(), most = 0;  // allocations in one call
  std::size_t settled = 0, candidates = 0;
};

// The best of a few rounds over the same readings; the memory asked for is counted in the last one.
template <class Place>
Figures measure(const std::vector<Reading>& readings, Place place) {
  Figures figures;
  figures.readings = readings.size();
  for (int round = 0; round < kRounds; ++round) {
    figures.fewest = std::numeric_limits<std::size_t>::max();
    figures.most = figures.settled = figures.candidates = 0;
    const std::clock_t start = std::clock();
    for (const Reading& reading : readings) {
      const std::size_t before = allocations();
      const Placing placing = place(reading);
      const std::size_t asked = allocations() - before;
      figures.fewest = std::min(figures.fewest, asked);
      figures.most = std::max(figures.most, asked);
      figures.settled += placing.verdict == Verdict::settled ? 1 : 0;
      figures.candidates += placing.candidates.size();
    }
    const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    figures.per_second = std::max(figures.per_second, static_cast<double>(readings.size()) / seconds);
  }
  return figures;
}

void print(const char* what, const Figures& figures) {
  const auto n = static_cast<double>(figures.readings);
  fmt::print(
      "{:<23} {:>9.0f} readings a second; memory asked for {} to {} times a call; {:.0f} % settled, {:.2f} "
      "candidates\n",
      what, figures.per_second, figures.fewest, figures.most, 100 * static_cast<double>(figures.settled) / n,
      static_cast<double>(figures.candidates) / n);
}

int run() {
  const Yarn yarn = fourteen_sections();
  Random chance(kSeed);
  std::vector<Reading> readings;
  for (std::size_t i = 0; i < kReadings; ++i) readings.push_back(read_from(yarn.repeat, chance));

  Matcher matcher(yarn);
  print("place, matcher kept", measure(readings, [&](const Reading& r) { return matcher.match(r, {}); }));
  const std::vector<Reading> fewer(readings.begin(), readings.begin() + kReadings / 4);
  print("place with its question", measure(fewer, [&](const Reading& r) { return place_reading(yarn, r, {}); }));
  return 0;
}

}  // namespace
}  // namespace ballchange

int main() { return ballchange::run(); }
