#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "base/random.hpp"
#include "match/settle.hpp"
#include "orchard.hpp"

// Yarns and tapes without any error, and repeats and readings as long as they may be.
namespace ballchange {
namespace {

bool all_finite(const Placing& placing) {
  bool finite = std::isfinite(placing.sureness) && std::isfinite(placing.place.cm()) &&
                std::isfinite(placing.low.cm()) && std::isfinite(placing.high.cm()) && std::isfinite(placing.spread_sd);
  for (const Candidate& c : placing.candidates) finite = finite && std::isfinite(c.probability);
  return finite && (!placing.measure_more || std::isfinite(placing.measure_more->cm()));
}

TEST_CASE("a yarn dyed to the hair and a tape without error are placed like any other") {
  Yarn yarn = orchard();
  std::vector<Section> sections = yarn.repeat.sections();
  for (Section& section : sections) section.plus_minus = Length();
  yarn.repeat = Repeat(yarn.repeat.colours(), sections);
  yarn.ball_plus_minus = 0;
  MatchOptions exact;
  exact.tape = {Length(), 0};
  struct Row {
    End end;
    const char* reading;
    Verdict verdict;
  };
  const Row rows[] = {
      {End::new_end, "plum 15, sand 11, rust 30", Verdict::settled},
      {End::old_end, "rust 30, sand 11, plum", Verdict::settled},
      {End::new_end, "| plum 92, sand", Verdict::settled},
      {End::new_end, "moss 6 |", Verdict::settled},
      {End::new_end, "plum, sand 11, rust 30", Verdict::unsettled},
      {End::new_end, "plum 40", Verdict::unsettled},
      {End::old_end, "navy", Verdict::unsettled},
      {End::old_end, "navy 20, rust", Verdict::unsettled},
      {End::new_end, "grey 5, plum", Verdict::settled},
      {End::new_end, "plum 15, sand 12, rust 30", Verdict::no_fit},
  };
  for (const Row& row : rows) {
    CAPTURE(row.reading);
    Reading reading = read_on(yarn, row.end, row.reading);
    for (Entry& entry : reading.entries) entry.rounding_variance = 0;
    const Placing placing = place_reading(yarn, reading, exact);
    CHECK(placing.verdict == row.verdict);
    CHECK(all_finite(placing));
  }
}

// Two look-alikes in turn, each a splash: hardly anything can be left out.
Yarn longest_repeat() {
  std::vector<Section> sections;
  for (std::size_t k = 0; k < 200; ++k) sections.push_back({k % 2, Length::cm(k % 3 == 0 ? 4 : 5), 1.5_cm});
  const std::vector<Colour> colours{{"moss", Shade{0x5d, 0x6b, 0x3a}}, {"fern", Shade{0x5f, 0x6d, 0x3d}}};
  return {.name = "Longest", .fibre = "", .ball_mass = {}, .ball_length = {}, .repeat = Repeat(colours, sections)};
}

Reading longest_reading(std::uint64_t seed) {
  Random random(seed);
  Reading reading;
  for (std::size_t n = 0; n < 1000; ++n) {
    const double length = 3 + static_cast<double>(random.below(9));
    reading.entries.push_back({n % 2, Length::cm(length), 1.0 / 12, n + 1});
  }
  return reading;
}

TEST_CASE("two hundred sections and a thousand entries end after a bounded number of steps") {
  constexpr std::uint64_t seed = 91;
  CAPTURE(seed);
  const Yarn yarn = longest_repeat();
  const Reading reading = longest_reading(seed);
  Matcher matcher(yarn);
  const Placing placing = matcher.match(reading, {});
  const std::uint64_t once = matcher.work();
  CAPTURE(once);
  // No more than every entry from every change over as many sections as a run may have, both ways.
  CHECK(once > 200'000);
  CHECK(once < 2ULL * 1000 * 200 * 40);
  CHECK(all_finite(placing));
}

TEST_CASE("what would settle so long a reading is given up in time") {
  constexpr std::uint64_t seed = 92;
  CAPTURE(seed);
  const Yarn yarn = longest_repeat();
  Reading reading = longest_reading(seed);
  reading.entries.resize(60);
  Matcher matcher(yarn);
  (void)matcher.match(reading, {});
  const std::uint64_t once = matcher.work();
  matching::Observed observed;
  matching::observe(reading, {}, observed);
  const auto states = matching::open_states(matcher.model(), observed, {});
  if (states.empty()) return;  // given up already
  (void)matching::how_much_further(matcher, reading, observed, {}, states);
  CAPTURE(once);
  CHECK(matcher.work() - once < 4'000'000 + 20 * once);
}

}  // namespace
}  // namespace ballchange
