#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "match/place.hpp"
#include "orchard.hpp"

// Yarns and tapes without any error.
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

}  // namespace
}  // namespace ballchange
