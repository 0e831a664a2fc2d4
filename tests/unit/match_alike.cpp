#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "match/place.hpp"
#include "orchard.hpp"

// Candidates that come to the same, and readings that leave only part of the place open.
namespace ballchange {
namespace {

Yarn with_sections(const std::vector<Section>& sections) {
  const std::vector<Colour> colours{{"oat", {}}, {"fern", {}}, {"plum", {}}};
  return {.name = "Alike", .fibre = "", .ball_mass = {}, .ball_length = {}, .repeat = Repeat(colours, sections)};
}

// Mirrors itself but for a centimetre of its second fern.
Yarn nearly_mirrored() {
  return with_sections({{0, 60_cm, 3_cm}, {1, 20_cm, 1.5_cm}, {2, 50_cm, 3_cm}, {1, 21_cm, 1.5_cm}});
}

// Twice oat 60, fern 20.
Yarn hiding_a_shorter_repeat() {
  return with_sections({{0, 60_cm, 3_cm}, {1, 20_cm, 1.5_cm}, {0, 60_cm, 3_cm}, {1, 20_cm, 1.5_cm}});
}

TEST_CASE("wound by hand, a yarn that nearly mirrors itself settles: both ways come to the same place") {
  const Yarn yarn = nearly_mirrored();
  REQUIRE(mirror_axis(yarn.repeat));
  REQUIRE(!mirrors_exactly(yarn.repeat));
  MatchOptions by_hand;
  by_hand.wound = Wound::hand;
  for (const End end : {End::new_end, End::old_end}) {
    const char* reading = "oat 25, fern 20, plum 30";
    CAPTURE(static_cast<int>(end));
    const Placing placing = Matcher(yarn).match(read_on(yarn, end, reading), by_hand);
    REQUIRE(placing.candidates.size() == 2);
    CHECK(placing.candidates[0].direction != placing.candidates[1].direction);
    CHECK(placing.probability() < 0.7);
    CHECK(std::abs(placing.sureness - placing.candidates[0].probability - placing.candidates[1].probability) < 1e-9);
    CHECK(placing.verdict == Verdict::settled);
    CHECK(!placing.ask);
  }
}

TEST_CASE("wound by hand, a yarn that does not mirror itself stays unsettled between both ways") {
  const Yarn yarn = with_sections({{0, 60_cm, 3_cm}, {1, 20_cm, 1.5_cm}, {2, 50_cm, 3_cm}, {1, 48_cm, 1.5_cm}});
  REQUIRE(!mirror_axis(yarn.repeat));
  MatchOptions by_hand;
  by_hand.wound = Wound::hand;
  const Placing placing = Matcher(yarn).match(read_on(yarn, End::new_end, "oat 25, fern"), by_hand);
  CHECK(placing.candidates.size() == 2);
  CHECK(placing.sureness == placing.probability());
  CHECK(placing.verdict == Verdict::unsettled);
}

TEST_CASE("a yarn that hides a shorter repeat settles: a repeat further on is the same place") {
  const Yarn yarn = hiding_a_shorter_repeat();
  REQUIRE(hidden_repeats(yarn.repeat) == 2);
  struct Row {
    End end;
    const char* reading;
    double place;  // modulo the shorter repeat
  };
  const Row rows[] = {{End::new_end, "oat 15, fern 20, oat 30", 45},
                      {End::old_end, "oat 15, fern 20, oat 30", 15},
                      {End::new_end, "| fern 20, oat", 60}};
  for (const Row& row : rows) {
    CAPTURE(row.reading);
    const Placing placing = Matcher(yarn).match(read_on(yarn, row.end, row.reading), {});
    CHECK(placing.verdict == Verdict::settled);
    CHECK(placing.sureness > 0.99);
    CHECK(std::abs(placing.probability() - 0.5) < 0.01);
    CHECK(std::abs(nearest(placing.place - Length::cm(row.place), 80_cm).cm()) < 1e-6);
  }
}

TEST_CASE("without the first length the section is known, the place in it is not") {
  struct Row {
    End end;
    const char* reading;
    std::size_t boundary;
    double from, to;  // the section the loose end lies in
  };
  // Orchard: plum 0-92, sand -103, rust -183, moss -197, navy -267, grey -276.
  const Row rows[] = {{End::new_end, "plum, sand 11, rust 30", 1, 0, 92},
                      {End::old_end, "rust, sand 11, plum 30", 2, 103, 183},
                      {End::new_end, "navy, grey 9, plum 20", 5, 197, 267},
                      {End::old_end, "sand, plum 92, grey", 1, 92, 103}};
  const Yarn yarn = orchard();
  for (const Row& row : rows) {
    CAPTURE(row.reading);
    const Placing placing = Matcher(yarn).match(read_on(yarn, row.end, row.reading), {});
    CHECK(placing.verdict == Verdict::unsettled);
    REQUIRE(!placing.candidates.empty());
    CHECK(placing.best().boundary == row.boundary);
    CHECK(placing.probability() > 0.95);
    // The middle nine tenths of it.
    const double twentieth = (row.to - row.from) / 20;
    CHECK(std::abs(placing.place.cm() - (row.from + row.to) / 2) < 1e-6);
    CHECK(std::abs(placing.low.cm() - row.from - twentieth) < 1e-6);
    CHECK(std::abs(placing.high.cm() - row.to + twentieth) < 1e-6);
    REQUIRE(placing.ask);
    CHECK(placing.ask->kind == Question::Kind::first_length);
  }
}

}  // namespace
}  // namespace ballchange
