#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "ledger_log.hpp"

using namespace ballchange;

namespace {

const std::vector<std::string> kTwoBalls{"ball, ball: A", "ball, ball: B"};

std::vector<std::string> operator+(std::vector<std::string> a, const std::vector<std::string>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

// "2 joins, 1 left; begin 0, step 108, allowance 8, knots 40, swatches 200"
std::string causes_of(const State& state) {
  const auto& by = state.totals.by_cause;
  const std::string left = state.totals.knots_left > 0 ? fmt::format(", {} left", state.totals.knots_left) : "";
  return fmt::format("{} joins{}; begin {}, step {}, allowance {}, knots {}, swatches {}", state.totals.joins, left,
                     text_of(by.begin), text_of(by.step), text_of(by.allowance), text_of(by.knots),
                     text_of(by.swatches));
}

std::string yes_no(std::optional<bool> answer) { return !answer ? "?" : *answer ? "yes" : "no"; }

std::string left_of(const State& state) {
  const Left& left = state.left;
  return fmt::format("{} cm, {} rows, {}", text_of(left.length), left.rows ? fmt::format("{}", *left.rows) : "?",
                     yes_no(left.enough));
}

}  // namespace

TEST_CASE("waste by cause") {
  struct Case {
    std::vector<std::string> log;
    std::string causes;
  };
  const std::string felted = "join, ball: B, method: felted, allowance: 8 cm, trim_old: 20 cm, trim_new: 48 cm";
  const std::string woven = "join, ball: B, method: woven, trim_new: 48 cm";
  const std::vector<Case> cases{
      {{}, "0 joins; begin 0, step 0, allowance 0, knots 0, swatches 0"},
      {{"begin, ball: A, trim_new: 60 cm"}, "0 joins; begin 60, step 0, allowance 0, knots 0, swatches 0"},
      {{"row, row: 40", felted}, "1 joins; begin 0, step 68, allowance 8, knots 0, swatches 0"},
      {{"row, row: 40", felted, "cancel, entry: 4"}, "0 joins; begin 0, step 0, allowance 0, knots 0, swatches 0"},
      // Ravelled past, a felted join holds; a woven one gives its allowance back, never its trims.
      {{"row, row: 40", felted, "rip, row: 3"}, "1 joins; begin 0, step 68, allowance 8, knots 0, swatches 0"},
      {{"row, row: 40", woven, "rip, row: 3"}, "0 joins; begin 0, step 48, allowance 0, knots 0, swatches 0"},
      {{"row, row: 40", woven, "rip, row: 3", woven}, "1 joins; begin 0, step 96, allowance 25, knots 0, swatches 0"},
      // Cut out, all it took is lost.
      {{"row, row: 40", felted, "rip, row: 3", "join, ball: B"},
       "1 joins; begin 0, step 68, allowance 18, knots 0, swatches 0"},
      {{"row, row: 5", "join, ball: A, knot: true"},
       "0 joins, 1 left; begin 0, step 0, allowance 0, knots 0, swatches 0"},
      {{"row, row: 5", "join, ball: A, knot: true, trim_old: 10 cm, trim_new: 20 cm"},
       "1 joins; begin 0, step 0, allowance 0, knots 40, swatches 0"},
      // Joined anew where it was tied: no knot is left.
      {{"row, row: 5", "join, ball: A, knot: true, method: felted"},
       "1 joins; begin 0, step 0, allowance 0, knots 8, swatches 0"},
      {{"row, row: 5", "join, ball: A, knot: true, allowance: 6 cm"},
       "1 joins; begin 0, step 0, allowance 0, knots 6, swatches 0"},
      {{"swatch, ball: A, length: 1 m", "swatch, ball: B, length: 1 m"},
       "0 joins; begin 0, step 0, allowance 0, knots 0, swatches 200"},
  };
  for (const Case& c : cases) {
    CAPTURE(project_text(kTwoBalls + c.log));
    CHECK(causes_of(fold_of(kTwoBalls + c.log)) == c.causes);
  }
}

TEST_CASE("waste in length, in grams by the ball band, and as a share of the yarn bought") {
  const State state = fold_of({"ball, ball: A", "ball, ball: B", "begin, ball: A, trim_new: 60 cm", "row, row: 5",
                               "join, ball: A, knot: true, trim_old: 10 cm, trim_new: 20 cm", "row, row: 40",
                               "join, ball: B, method: felted, allowance: 8 cm, trim_new: 48 cm",
                               "swatch, ball: B, length: 2 m", "ball, ball: P, plain: true"});
  CHECK(troubles_of(state).empty());
  CHECK(text_of(state.totals.discard) == "138");   // 60 + 30 + 48
  CHECK(text_of(state.totals.allowance) == "18");  // 10 + 8
  CHECK(text_of(state.totals.waste) == "356");     // and 200
  REQUIRE(state.totals.waste_mass);
  CHECK(state.totals.waste_mass->g() == doctest::Approx(3.56).epsilon(1e-12));  // 356 of 5,000 cm, 50 g
  REQUIRE(state.totals.waste_share);
  CHECK(*state.totals.waste_share ==
        doctest::Approx(0.0356).epsilon(1e-12));  // of two balls; plain yarn is not counted
}

TEST_CASE("the running shift") {
  struct Case {
    std::vector<std::string> log;
    std::string after_each, now;
  };
  const auto join = [](const std::string& ball, const std::string& shift) {
    return "join, ball: " + ball + (shift.empty() ? "" : ", shift: " + shift);
  };
  const std::vector<std::string> begin{"ball, ball: A", "ball, ball: B", "ball, ball: C", "begin, ball: A",
                                       "row, row: 40"};
  const std::vector<Case> cases{
      {{}, "", "0"},
      {{join("B", "3 cm")}, "3 ", "3"},
      {{join("B", "3 cm"), "row, row: 80", join("C", "-5 cm")}, "3 -2 ", "-2"},
      {{join("B", "2 st"), "row, row: 80", join("C", "+1 st")}, "4 6 ", "6"},
      // Not known at one join, not known from there on.
      {{join("B", ""), "row, row: 80", join("C", "3 cm")}, "? ? ", "?"},
      // The repeat is 276 cm: 200 ahead is 76 behind.
      {{join("B", "100 cm"), "row, row: 80", join("C", "100 cm")}, "100 -76 ", "-76"},
      // Ravelled out of the work, a shift is out of it too, and comes back.
      {{join("B", "3 cm"), "row, row: 80", join("C", "4 cm"), "rip, row: 60"}, "3 ? ", "3"},
      {{join("B", "3 cm"), "row, row: 80", join("C", "4 cm"), "rip, row: 60", "row, row: 81"}, "3 7 ", "7"},
  };
  for (const Case& c : cases) {
    CAPTURE(project_text(begin + c.log));
    const State state = fold_of(begin + c.log);
    CHECK(troubles_of(state).empty());
    std::string after_each;
    for (const JoinState& j : state.joins) after_each += text_of(j.running_shift) + " ";
    CHECK(after_each == c.after_each);
    CHECK(text_of(state.totals.running_shift) == c.now);
  }
}

TEST_CASE("what is left, and whether it is enough") {
  struct Case {
    std::vector<std::string> log;
    std::string left;
  };
  const auto check = [](const std::vector<Case>& cases, const std::string& piece = kPiece) {
    for (const Case& c : cases) {
      CAPTURE(project_text(c.log, piece));
      CHECK(left_of(fold_of(c.log, piece)) == c.left);
    }
  };
  check({
      {{}, "0 cm, 0 rows, no"},
      // 100 rows take 10 + 100 x 110 = 11,010 cm.
      {{"ball, ball: A", "ball, ball: B"}, "10000 cm, 90 rows, no"},
      {{"ball, ball: A", "ball, ball: B", "ball, ball: C"}, "15000 cm, 136 rows, yes"},
      {{"ball, ball: A, length: 110.1 m"}, "11010 cm, 100 rows, yes"},
      {{"ball, ball: A, length: 110 m"}, "11000 cm, 99 rows, no"},  // the foundation takes 10 cm of the 100th
      // 60 rows more: 6,600.
      {{"ball, ball: A", "ball, ball: B", "row, row: 40", "join, ball: B"}, "4995 cm, 45 rows, no"},
      {{"ball, ball: A", "ball, ball: B, length: 66.05 m", "row, row: 40", "join, ball: B"}, "6600 cm, 60 rows, yes"},
      // Half a row in, 25 stitches and 59 rows more: 6,540.
      {{"ball, ball: A", "ball, ball: B, length: 65.45 m", "row, row: 41, stitch: 25", "join, ball: B"},
       "6540 cm, 59 rows, yes"},
      {{"ball, ball: A", "row, row: 100"}, "0 cm, 0 rows, ?"},  // a join is missing, or the row is a slip
      {{"ball, ball: A", "ball, ball: P, plain: true, length: 900 m"}, "5000 cm, 45 rows, no"},
      // A knitter's needle may have changed: rows to come count by the gauge now, 10 + 50 x 4 = 210.
      {{"ball, ball: A", "gauge, yarn_per_stitch: 4 cm"}, "5000 cm, 23 rows, no"},
  });
  check({{{"ball, ball: A, length: 120 m"}, "12000 cm, 109 rows, no"},
         {{"ball, ball: A, length: 120.1 m"}, "12010 cm, 109 rows, yes"}},
        "piece: {stitches: 50, rows: 100, yarn_per_stitch: 2 cm, yarn_per_turn: 10 cm, foundation: 10 cm, edging: 10 "
        "m}\n");
  check({{{"ball, ball: A"}, "5000 cm, ? rows, ?"}}, "piece: {rows: 100}\n");
  check({{{"ball, ball: A"}, "5000 cm, 50 rows, ?"}}, "piece: {stitches: 50, yarn_per_stitch: 2 cm}\n");
  check({{{"ball, ball: A", "row, row: 4"}, "? cm, ? rows, ?"}}, "piece: {rows: 100}\n");
}

TEST_CASE("a ball that reached a little further is not short of what was worked from it") {
  // To the end of row 46 are 10 + 45 x 110 + 100 = 5,060 of a ball of 5,000; 54 rows more take 5,940.
  const State alone = fold_of({"ball, ball: A", "row, row: 46"});
  CHECK(text_of(alone.left.missing) == "5940");
  const std::string fresh = "ball, ball: B, length: ";
  CHECK(left_of(fold_of({"ball, ball: A", fresh + "59.4 m", "row, row: 46"})) == "5940 cm, 54 rows, yes");
  const State short_by_one = fold_of({"ball, ball: A", fresh + "59.39 m", "row, row: 46"});
  CHECK(text_of(short_by_one.left.missing) == "1");
}

TEST_CASE("a yarn written in stitches is turned into length once the yarn per stitch is told") {
  const std::string yarn =
      "format: ballchange project 1\nunits: st\nyarn: {name: Tally, repeat: [{colour: plum, length: 40}, {colour: "
      "rust, "
      "length: 30}]}\n";
  const std::string log =
      "log:\n  - {n: 1, at: 2026-03-02T19:20:00Z, did: ball, ball: A, length: 900}\n"
      "  - {n: 2, at: 2026-03-02T19:20:00Z, did: row, row: 10}\n";
  const State counted = fold(read_project(yarn + "piece: {stitches: 50}\n" + log, "p.yaml").project);
  CHECK(counted.yarn.reckoning == Reckoning::stitches);
  CHECK(work_of(counted) == "10:50 500");  // stitches
  CHECK(balls_of(counted) == "A working 400");
  const State measured =
      fold(read_project(yarn + "piece: {stitches: 50, yarn_per_stitch: 2 cm}\n" + log, "p.yaml").project);
  CHECK(measured.yarn.reckoning == Reckoning::centimetres);
  CHECK(measured.yarn.repeat.total() == 140_cm);
  CHECK(work_of(measured) == "10:50 1000");
  CHECK(balls_of(measured) == "A working 800");
}
