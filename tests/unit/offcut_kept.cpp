#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "ledger/fold.hpp"
#include "offcut/kept.hpp"
#include "wrap.hpp"

using namespace ballchange;
using namespace ballchange::offcuts;

namespace {

State wrap_of(const std::vector<std::string>& entries, const Project& project = wrap_project()) {
  return fold(read_project(wrap_file(entries, project), "wrap.yaml").project);
}

double tenths(Length length) { return std::round(length.cm() * 10) / 10 + 0.0; }

// "77 plum 15, sand 11, rust 22, 125", in working order; "?" where it isn't known.
std::string text_of(const State& state, const std::optional<Offcut>& offcut) {
  if (!offcut) return "?";
  std::string text = fmt::format("{}", tenths(offcut->start));
  for (const Stretch& stretch : offcut->stretches) {
    text += fmt::format(" {} {},", state.yarn.repeat.colours()[stretch.colour].name, tenths(stretch.length));
  }
  return fmt::format("{} {}{}", text, tenths(offcut->finish),
                     offcut->direction == Direction::backward ? " backward" : "");
}

// Of each offcut, in the order they came off.
std::string placed_in(const State& state) {
  std::string text;
  for (std::size_t k = 0; k < state.offcuts.size(); ++k) {
    text += fmt::format("{}{}", text.empty() ? "" : "; ", text_of(state, placed(state, {}, k)));
  }
  return text;
}

const std::string kReadB = "ball, ball: B, outside: \"plum 15, sand 11, rust 30\"";

}  // namespace

TEST_CASE("an offcut lies where its end was read, with the join or before it") {
  struct Case {
    std::vector<std::string> entries;
    const char* expected;
  };
  const Case cases[] = {
      {{"ball, ball: A", kReadB, "row, row: 40", "join, ball: B, trim_new: 48 cm"},
       "77 plum 15, sand 11, rust 22, 125"},
      {{"ball, ball: A", "ball, ball: B", "row, row: 40",
        "join, ball: B, trim_old: 35 cm, trim_new: 48 cm, old: \"rust 30, sand 11, plum 50, hook\", new: \"plum 15, "
        "sand "
        "11, rust 30\""},
       "98 sand 5, rust 30, 133; 77 plum 15, sand 11, rust 22, 125"},
      // The old end was read when the ball was added.
      {{"ball, ball: A, inside: \"rust 30, sand 11, plum 50\"", "ball, ball: B", "row, row: 40",
        "join, ball: B, trim_old: 35 cm"},
       "98 sand 5, rust 30, 133"},
      {{"ball, ball: A, outside: \"plum 15, sand 11, rust 30\"", "begin, ball: A, trim_new: 20 cm"},
       "77 plum 15, sand 5, 97"},
      // Nothing read, a reading that settles nothing, one that is none, and a knot, inside the ball.
      {{"ball, ball: A", "ball, ball: B", "row, row: 40", "join, ball: B, trim_new: 48 cm"}, "?"},
      {{"ball, ball: A", "ball, ball: B", "row, row: 40", "join, ball: B, trim_new: 48 cm, new: plum 15"}, "?"},
      {{"ball, ball: A", "ball, ball: B", "row, row: 40", "join, ball: B, trim_new: 48 cm, new: beige 15"}, "?"},
      {{kReadB, "row, row: 40", "join, ball: B, knot: true, trim_new: 48 cm"}, "?"},
      {{kReadB, "row, row: 40",
        "join, ball: B, knot: true, trim_new: 20 cm, old: \"rust 30, sand 11, plum\", new: \"rust 50, moss 14, navy\""},
       "133 rust 20, 153"},
  };
  for (const Case& c : cases) {
    CAPTURE(wrap_file(c.entries));
    CHECK(placed_in(wrap_of(c.entries)) == c.expected);
  }
}

// Of the piece from 77 to 163: 30 cm off its first end are 15 plum, 11 sand and 4 rust, 20 cm off its last all rust.
TEST_CASE("an offcut of an offcut lies where that does") {
  const std::vector<std::string> entries{"ball, ball: A",
                                         "ball, ball: B, outside: \"plum 15, sand 11, rust 70\"",
                                         "row, row: 40",
                                         "join, ball: B, trim_new: 86 cm",
                                         "ball, ball: D, offcut: 4",
                                         "ball, ball: C",
                                         "join, ball: D, trim_new: 30 cm",
                                         "join, ball: C, trim_old: 20 cm"};
  CHECK(placed_in(wrap_of(entries)) ==
        "77 plum 15, sand 11, rust 60, 163; 77 plum 15, sand 11, rust 4, 107; 143 rust 20, 163");
  // Worked from its last end, all of it is the other way round: place p is 276 - p there.
  std::vector<std::string> turned_round = entries;
  turned_round[4] += ", from: inside";
  CHECK(placed_in(wrap_of(turned_round)) ==
        "77 plum 15, sand 11, rust 60, 163; 113 rust 30, 143 backward; 179 sand 5, plum 15, 199 backward");
}

TEST_CASE("a ball made of an offcut lies there while both its ends are as they were cut") {
  const auto ball = [](const std::vector<std::string>& more) {
    std::vector<std::string> entries{"ball, ball: A", kReadB, "row, row: 40", "join, ball: B, trim_new: 48 cm"};
    entries.insert(entries.end(), more.begin(), more.end());
    const State state = wrap_of(entries);
    return text_of(state, placed(state, {}, *state.find_ball("D")));
  };
  CHECK(ball({"ball, ball: D, offcut: 4"}) == "77 plum 15, sand 11, rust 22, 125");
  CHECK(ball({"ball, ball: D, offcut: 4, from: inside"}) == "151 rust 22, sand 11, plum 15, 199 backward");
  CHECK(ball({"ball, ball: D, offcut: 4, length: 40 cm"}) == "?");
  CHECK(ball({"ball, ball: D, offcut: 4", "swatch, ball: D, length: 10 cm"}) == "?");
  CHECK(ball({"ball, ball: D"}) == "?");
}

TEST_CASE("what is kept: nothing made of it yet, and long enough for a join or for sewing") {
  const LongEnough enough{31_cm, least_to_sew(Reckoning::centimetres)};
  const auto kept_of = [&](const std::vector<std::string>& more) {
    std::vector<std::string> entries{"ball, ball: A", kReadB,
                                     "row, row: 40",  "join, ball: B, trim_old: 31 cm, trim_new: 48 cm",
                                     "row, row: 41",  "join, ball: B, knot: true, trim_old: 30 cm"};
    entries.insert(entries.end(), more.begin(), more.end());
    const State state = wrap_of(entries);
    std::string text;
    for (const Kept& one : kept(state, {}, enough)) {
      text += fmt::format("{} {}{}; ", state.offcuts[one.offcut].entry, tenths(state.offcuts[one.offcut].length),
                          enough.to_bridge(state.offcuts[one.offcut].length) ? " bridges" : "");
    }
    return text;
  };
  CHECK(kept_of({}) == "4 31 bridges; 4 48 bridges; ");
  CHECK(kept_of({"ball, ball: D, offcut: 4, cut_from: new"}) == "4 31 bridges; ");
  CHECK(kept_of({"note, text: sewed, offcut: 4, cut_from: old"}) == "4 48 bridges; ");
  CHECK(!LongEnough{std::nullopt, 40_cm}.to_bridge(500_cm));
  CHECK(LongEnough{std::nullopt, 40_cm}.to_keep(40_cm));
  CHECK(!LongEnough{60_cm, 40_cm}.to_keep(39_cm));
}

TEST_CASE("for sewing up: each colour that is long enough, the longest first") {
  const State state = wrap_of({"ball, ball: A", "ball, ball: B, outside: \"plum 60, sand 11, rust 70\"", "row, row: 40",
                               "join, ball: B, trim_new: 141 cm", "ball, ball: C, outside: \"rust 50, moss 14, navy\"",
                               "row, row: 80", "join, ball: C, trim_new: 300 cm"});
  const std::vector<Kept> all = kept(state, {}, {31_cm, 40_cm});
  std::string text;
  for (const Sewing& one : to_sew(all, 40_cm)) {
    text += fmt::format("{} {} of {}; ", state.yarn.repeat.colours()[one.colour].name, tenths(one.length),
                        state.offcuts[one.offcut].entry);
  }
  // Ball C: rust 50, moss 14, navy 70, grey 9, plum 92, sand 11, rust 54.
  CHECK(text == "plum 92 of 7; plum 60 of 4; rust 70 of 4; rust 54 of 7; navy 70 of 7; ");
}
