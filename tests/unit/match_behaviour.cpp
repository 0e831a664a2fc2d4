#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "match/place.hpp"

// What comes back for readings of every kind, on a yarn with long sections and splashes between them.
namespace ballchange {
namespace {

using Sections = std::vector<std::size_t>;

Yarn orchard() {
  const std::vector<Colour> colours{{"plum", Shade{0x5b, 0x2a, 0x59}}, {"sand", Shade{0xc9, 0xb4, 0x8f}},
                                    {"rust", Shade{0xa5, 0x49, 0x2a}}, {"moss", Shade{0x5d, 0x6b, 0x3a}},
                                    {"navy", Shade{0x1f, 0x2d, 0x4d}}, {"grey", Shade{0x8d, 0x90, 0x96}}};
  const std::vector<Section> sections{{0, 92_cm, 6_cm}, {1, 11_cm, 1.5_cm}, {2, 80_cm, 5_cm},
                                      {3, 14_cm, 2_cm}, {4, 70_cm, 5_cm},   {5, 9_cm, 1_cm}};
  return Yarn{.name = "Orchard", .fibre = "", .ball_mass = {}, .ball_length = {}, .repeat = Repeat(colours, sections)};
}

Yarn folded() {
  const std::vector<Colour> colours{{"oat", {}}, {"fern", {}}, {"plum", {}}};
  const std::vector<Section> sections{{0, 60_cm, 3_cm}, {1, 20_cm, 1.5_cm}, {2, 50_cm, 3_cm}, {1, 20_cm, 1.5_cm}};
  return Yarn{.name = "Folded", .fibre = "", .ball_mass = {}, .ball_length = {}, .repeat = Repeat(colours, sections)};
}

Reading read(const Yarn& yarn, End end, const std::string& text) {
  Palette palette{yarn.repeat.colours()};
  return parse_reading(text, end, palette, Ruler{}, "reading");
}

Placing place(const Yarn& yarn, End end, const std::string& text, const MatchOptions& options = {}) {
  return Matcher(yarn).match(read(yarn, end, text), options);
}

struct Row {
  std::string what;
  End end;
  std::string reading;
  Verdict verdict;
  const char* colour;  // at the best place
  Direction direction;
  std::optional<Question::Kind> ask;
};

constexpr End to_new = End::new_end;
constexpr End to_old = End::old_end;
constexpr Direction forward = Direction::forward;
constexpr Direction backward = Direction::backward;

const std::vector<Row> rows{
    {"three colours", to_new, "plum 15, sand 11, rust 30", Verdict::settled, "plum", forward, {}},
    {"three colours, old end", to_old, "rust 30, sand 11, plum", Verdict::settled, "rust", forward, {}},
    {"two colours are enough", to_new, "plum 15, sand", Verdict::settled, "plum", forward, {}},
    {"length left out in the middle", to_new, "plum 15, sand, rust", Verdict::settled, "plum", forward, {}},
    {"one entry and a bar behind it", to_new, "moss 6 |", Verdict::settled, "moss", forward, {}},
    {"a bar at the loose end", to_new, "| plum 92, sand", Verdict::settled, "plum", forward, {}},
    {"a bar and no first length", to_new, "| plum, sand 11", Verdict::settled, "plum", forward, {}},
    {"a bar at the loose end, old", to_old, "| rust 80, sand", Verdict::settled, "moss", forward, {}},
    {"only the other way round", to_new, "navy 20, moss 14, rust 60", Verdict::settled, "navy", backward,
     Question::Kind::wrong_way},
    {"only the other way round, old end", to_old, "navy 20, grey 9, plum 60", Verdict::settled, "navy", backward,
     Question::Kind::wrong_way},
    {"no first length", to_new, "plum, sand 11, rust 30", Verdict::unsettled, "plum", forward,
     Question::Kind::first_length},
    {"no first length, old end", to_old, "rust, sand 11, plum 30", Verdict::unsettled, "rust", forward,
     Question::Kind::first_length},
    {"no change seen", to_new, "plum 40", Verdict::unsettled, "plum", forward, Question::Kind::next_change},
    {"no change seen, old end", to_old, "navy 40", Verdict::unsettled, "navy", forward, Question::Kind::next_change},
};

TEST_CASE("each kind of reading gets its verdict, place and question") {
  const Yarn yarn = orchard();
  for (const Row& row : rows) {
    CAPTURE(row.what);
    CAPTURE(row.reading);
    const Placing placing = place(yarn, row.end, row.reading);
    CHECK(placing.verdict == row.verdict);
    REQUIRE(!placing.candidates.empty());
    CHECK(yarn.repeat.name_of(yarn.repeat.spot(placing.place).section) == row.colour);
    CHECK(placing.best().direction == row.direction);
    CHECK(placing.ask.has_value() == row.ask.has_value());
    if (placing.ask && row.ask) CHECK(placing.ask->kind == *row.ask);
  }
}

TEST_CASE("the place is the tape from the nearest change, with nine tenths of its error around it") {
  const Placing placing = place(orchard(), End::new_end, "plum 15, sand 11, rust 30");
  CHECK(std::abs(placing.place.cm() - 77) < 1e-9);
  // 1.645 sd of a tape of 0.5 cm + 1 % of 15 cm read to the centimetre.
  CHECK(std::abs(placing.low.cm() - 75.8302) < 0.003);
  CHECK(std::abs(placing.high.cm() - 78.1698) < 0.003);
}

TEST_CASE("a bar at the loose end gives the change itself") {
  const Placing placing = place(orchard(), End::old_end, "| navy 69, moss 13, rust 84 |");
  CHECK(std::abs(placing.place.cm() - 267) < 1e-9);
  CHECK(placing.low == placing.place);
  CHECK(placing.high == placing.place);
}

TEST_CASE("a far change does not outvote a near one") {
  const Placing short_one = place(orchard(), End::new_end, "plum 15, sand 11, rust 80, moss 14, navy 20");
  const Placing long_one = place(orchard(), End::new_end, "plum 15, sand 13, rust 90, moss 16, navy 20");
  CHECK(std::abs(short_one.place.cm() - 77) < 1e-9);
  CHECK(std::abs(long_one.place.cm() - 77) < 1e-9);
}

TEST_CASE("lengths and colours that no such yarn has fit nowhere, and the worst entry is named") {
  const struct {
    std::string reading;
    std::size_t entry;
  } impossible[] = {
      {"plum 15, sand 30, rust 30", 1},
      {"plum 15, sand 11, rust 80, moss 40, navy 70, grey 9", 3},
      {"plum 15, sand 11, rust 80, moss 14, navy 30, grey 9, plum 3", 4},
      {"plum 15, sand 60, rust 40", 1},
      {"plum 15, sand 11, rust 140, moss", 2},
      {"plum 400", 0},
      {"plum 900", 0},
      {"plum 1100", 0},
  };
  for (const auto& row : impossible) {
    CAPTURE(row.reading);
    const Yarn yarn = orchard();
    const Placing placing = place_reading(yarn, read(yarn, End::new_end, row.reading), {});
    CHECK(placing.verdict == Verdict::no_fit);
    CHECK(placing.candidates.empty());
    CHECK(placing.probability() == 0);
    REQUIRE(placing.why.size() == 1);
    CHECK(placing.why[0].entry == row.entry);
  }
}

TEST_CASE("a ball known to be worked from its other end isn't asked about") {
  const char* reading = "navy 20, moss 14, rust 60";
  MatchOptions other_end;
  other_end.worked = Worked::other_end;
  MatchOptions by_hand;
  by_hand.wound = Wound::hand;
  for (const MatchOptions& options : {other_end, by_hand}) {
    const Placing placing = place(orchard(), End::new_end, reading, options);
    CHECK(placing.verdict == Verdict::settled);
    CHECK(placing.best().direction == Direction::backward);
    CHECK(!placing.ask);
  }
}

TEST_CASE("a ball said to be worked from its other end that fits only forward is asked about") {
  MatchOptions other_end;
  other_end.worked = Worked::other_end;
  MatchOptions by_hand = other_end;
  by_hand.wound = Wound::hand;
  const struct {
    End end;
    const char* reading;
  } forward_only[] = {{End::new_end, "plum 15, sand 11, rust 30"}, {End::old_end, "rust 30, sand 11, plum"}};
  for (const auto& row : forward_only) {
    CAPTURE(row.reading);
    const Placing placing = place(orchard(), row.end, row.reading, other_end);
    CHECK(placing.verdict == Verdict::settled);
    CHECK(placing.best().direction == Direction::forward);
    REQUIRE(placing.ask);
    CHECK(placing.ask->kind == Question::Kind::wrong_way);
    CHECK(!place(orchard(), row.end, row.reading, by_hand).ask);
  }
}

TEST_CASE("where both ways fit, how the ball is worked decides") {
  // On this yarn plum's open end tells nothing: a bar behind it, and its other neighbour is grey.
  const char* reading = "plum 78 |";
  CHECK(place(orchard(), End::new_end, reading).best().direction == Direction::forward);
  MatchOptions other_end;
  other_end.worked = Worked::other_end;
  CHECK(place(orchard(), End::new_end, reading, other_end).best().direction == Direction::backward);
  MatchOptions by_hand;
  by_hand.wound = Wound::hand;
  const Placing even = place(orchard(), End::new_end, reading, by_hand);
  CHECK(even.verdict == Verdict::unsettled);
  CHECK(std::abs(even.probability() - 0.5) < 0.05);
}

TEST_CASE("a yarn that is its own mirror image never runs backward") {
  MatchOptions other_end;
  other_end.worked = Worked::other_end;
  for (const Candidate& c : place(folded(), End::new_end, "oat 25, fern 19, plum 30", other_end).candidates)
    CHECK(c.direction == Direction::forward);
}

TEST_CASE("how sure one wants to be decides when a place is settled") {
  MatchOptions options;
  CHECK(place(orchard(), End::old_end, "navy 20, rust 30", options).verdict == Verdict::unsettled);
  options.sure = 0.85;  // the worked posterior is 0.8578
  CHECK(place(orchard(), End::old_end, "navy 20, rust 30", options).verdict == Verdict::settled);
}

TEST_CASE("why: the sections of each entry, and those passed over") {
  const Placing plain = place(orchard(), End::old_end, "rust 30, sand 11, plum 20");
  REQUIRE(plain.why.size() == 3);
  CHECK(plain.why[0].sections == Sections{2});
  CHECK(plain.why[1].sections == Sections{1});
  CHECK(plain.why[2].sections == Sections{0});

  const Placing passed_over = place(orchard(), End::new_end, "rust 90, navy 40");
  REQUIRE(passed_over.why.size() == 2);
  CHECK(passed_over.why[0].sections == Sections{2, 3});
  CHECK(passed_over.why[0].overlooked == Sections{3});
  CHECK(!passed_over.why[0].misnamed);

  const Placing misnamed =
      place(orchard(), End::new_end, "plum 15, sand 11, rust 80, grey 14, navy 70, grey 9, plum 5");
  REQUIRE(misnamed.why.size() == 7);
  CHECK(misnamed.why[3].sections == Sections{3});
  CHECK(misnamed.why[3].misnamed);
}

}  // namespace
}  // namespace ballchange
