#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/measure.hpp"
#include "stock/on_balls.hpp"
#include "stock/scale.hpp"
#include "unit/ledger_log.hpp"
#include "unit/rows.hpp"

namespace ballchange::stock {
namespace {

// By ledger_log.hpp a gram holds 100 cm, a row takes 110, the foundation 10.
const std::vector<std::string> kWeighedOnce{"ball, ball: A, mass: 50 g", "begin, ball: A", "row, row: 20",
                                            "weigh, ball: A, mass: 26 g"};

State state_of(std::vector<std::string> log, const std::vector<std::string>& more = {}) {
  log.insert(log.end(), more.begin(), more.end());
  return fold_of(log);
}

Stock told_by(const State& state) { return stock_of(state, doubts_of(state)); }

TEST_CASE("the step of a scale is how finely masses are written") {
  struct Row {
    const char* written;
    double step;
  };
  constexpr double ounce = 453.59237 / 16;
  for (const Row& row : {Row{"50 g", 1},
                         {"50.2 g", 0.1},
                         {"50.25 g", 0.01},
                         {"0.5 g", 0.1},
                         {"2 oz", ounce},
                         {"1 3/4 oz", ounce / 4},
                         {"1.1 oz", ounce / 10},
                         {"1lb 4oz", ounce},
                         {"50.123 g", 1}}) {
    CAPTURE(row.written);
    CHECK(step_of(parse_mass(row.written, "mass")).g() == doctest::Approx(row.step).epsilon(1e-9));
  }
}

TEST_CASE("noughts at the end of a typed mass tell its scale") {
  struct Row {
    const char* typed;
    double step;  // 0: no more than its value does
  };
  constexpr double ounce = 453.59237 / 16;
  for (const Row& row : {Row{"50 g", 0},
                         {"50.0g", 0.1},
                         {"50.0", 0.1},
                         {"1.00 g", 0.01},
                         {"1.000g", 0.01},
                         {"50.2g", 0},
                         {"50.20g", 0.01},
                         {"0.0500kg", 0.1},
                         {"2.0oz", ounce / 10},
                         {"1lb 4.0oz", 0},
                         {"3/4oz", 0}}) {
    CAPTURE(row.typed);
    const auto step = step_typed(row.typed);
    CHECK(step.has_value() == (row.step > 0));
    if (step) CHECK(step->g() == doctest::Approx(row.step).epsilon(1e-9));
  }
}

TEST_CASE("a step that was told holds for its own weighing, the project's for all others") {
  // 100 cm a gram; a rounding to 1 g is 100 cm / sqrt(12). What is known of the rest counts for little beside it.
  const auto plus_minus = [](const std::string& scale) {
    const State state =
        state_of({"ball, ball: A", "begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 27 g" + scale});
    return told_by(state).balls.front()->plus_minus.cm();
  };
  CHECK(plus_minus("") == doctest::Approx(100 / std::sqrt(12.0)).epsilon(0.05));
  CHECK(plus_minus(", scale: 2 g") == doctest::Approx(200 / std::sqrt(12.0)).epsilon(0.15));
  CHECK(plus_minus(", scale: 0.1 g") == doctest::Approx(10 / std::sqrt(12.0)).epsilon(0.01));
}

TEST_CASE("the same mass again with nothing worked in between says nothing new") {
  // Rows of 94.55 cm: what the log adds up to is no whole number.
  const std::string piece =
      "piece: {stitches: 51, rows: 100, yarn_per_stitch: 1.85 cm, yarn_per_turn: 0.2 cm, foundation: 130 cm}\n";
  for (int row = 5; row <= 45; ++row) {
    CAPTURE(row);
    const std::string weigh = fmt::format("weigh, ball: A, mass: {:.1f} g, scale: 0.1 g", 47.3 - row * 0.97);
    std::vector<std::string> log{"ball, ball: A, mass: 50.1 g", "begin, ball: A", fmt::format("row, row: {}", row),
                                 weigh};
    const Stock once = told_by(fold_of(log, piece));
    log.insert(log.end(), {weigh, weigh});
    const Stock again = told_by(fold_of(log, piece));
    CHECK(again.takes.plus_minus == doctest::Approx(once.takes.plus_minus).epsilon(1e-9));
    CHECK(again.balls.front()->plus_minus.cm() == doctest::Approx(once.balls.front()->plus_minus.cm()).epsilon(1e-9));
    CHECK(again.balls.front()->left.cm() == doctest::Approx(once.balls.front()->left.cm()).epsilon(1e-9));
  }
}

// 42 rows of 100 x 1.85 cm by the gauge are 77.7 m; 32 g gone are 60.8.
TEST_CASE("the same mass again bears out what seemed misread, and takes no contradiction away") {
  std::vector<std::string> log{"ball, ball: A, mass: 100 g", "begin, ball: A", "row, row: 42",
                               "weigh, ball: A, mass: 68 g"};
  const std::string piece = "piece: {stitches: 100, rows: 300, yarn_per_stitch: 1.85 cm}\n";
  const Stock once = told_by(fold_of(log, piece));
  REQUIRE(once.odd);
  log.push_back(log.back());
  const Stock again = told_by(fold_of(log, piece));
  CHECK(again.odd);
}

TEST_CASE("a project has one scale: the step of half of its masses, told or as they are written") {
  const auto step = [](const std::vector<std::string>& log) { return scale_step(fold_of(log)).g(); };
  CHECK(step({"ball, ball: A"}) == doctest::Approx(1));
  CHECK(step({"ball, ball: A, mass: 50 g", "weigh, ball: A, mass: 31.4 g"}) == doctest::Approx(0.1));
  CHECK(step({"ball, ball: A, mass: 50 g", "weigh, ball: A, mass: 31 g, scale: 0.1 g"}) == doctest::Approx(0.1));
  CHECK(step({"ball, ball: A, mass: 50 g", "weigh, ball: A, mass: 31 g, scale: 2 g"}) == doctest::Approx(1));
  CHECK(step({"ball, ball: A, mass: 50 g", "weigh, ball: A, mass: 40 g", "weigh, ball: A, mass: 29.2 g"}) ==
        doctest::Approx(1));
}

TEST_CASE("a gram of a yarn holds what its count says") {
  // yarn_count.csv. tex = g per 1000 m (ISO 1144).
  for (const auto& row : rows_of("yarn_count.csv")) {
    const bool metric = row[0].find("metric count") != std::string::npos && row[2] == "tex";
    const bool tex = row[0] == "tex" && row[2].find("cotton count") != std::string::npos;
    if (!metric && !tex) continue;
    CAPTURE(row[0]);
    const double count_tex = std::stod(metric ? row[4] : row[1]);
    // The band as whoever sells it by count prints it: metres in a gram, or hanks of 840 yd in a pound.
    const double grams = metric ? 50 : 453.59237;
    const double metres = metric ? std::stod(row[1]) * 50 : std::stod(row[4]) * 840 * 0.9144;
    State state = state_of({"ball, ball: A"});
    state.yarn.ball_mass = Mass::g(grams);
    state.yarn.ball_length = Length::cm(metres * 100);
    BallState& ball = state.balls.front();
    ball.mass = Mass::g(10);
    ball.length = ball.left = Length::cm(metres * 100 * 10 / grams);
    const Stock stock = told_by(state);
    CHECK(stock.balls.front()->left.cm() == doctest::Approx(10 / count_tex * 1000 * 100).epsilon(1e-6));
  }
}

TEST_CASE("a mass gives yarn by the band, however heavy the ball itself was: 125 m in 50 g is 400 tex") {
  // 13.4 g of 400 tex are 33.5 m (ISO 1144).
  std::string text =
      project_text({"ball, ball: A, mass: 50.2 g", "begin, ball: A", "row, row: 80", "weigh, ball: A, mass: 13.4 g"});
  text.replace(text.find("length: 50 m"), 12, "length: 125 m");
  const State state = fold(read_project(text, "p.yaml").project);
  CHECK(state.weighings.front().left->cm() == doctest::Approx(3350).epsilon(1e-9));
  CHECK(state.weighings.front().expected->cm() == doctest::Approx(125.5 * 100 - 80 * 110).epsilon(1e-9));
}

TEST_CASE("one weighing and a full mass tell what a row takes") {
  const State state = state_of(kWeighedOnce);
  const Stock stock = told_by(state);
  // By hand: 50 - 26 g are 2,400 cm, 10 of them foundation: 2,390 in rows that take 2,190
  // by the gauge: 20 of 100 and 19 turns of 10.
  REQUIRE(stock.measured);
  CHECK(stock.measured->share == doctest::Approx(2390.0 / 2190).epsilon(1e-5));
  // Two roundings to 1 g, 100 cm / sqrt(12) each, and the next stretch of rows may drift by 1 %.
  CHECK(stock.measured->plus_minus ==
        doctest::Approx(std::hypot(std::sqrt(2.0 / 12) * 100 / 2190, 0.01)).epsilon(1e-4));
  CHECK(differs(*stock.measured, stock.doubts));
  CHECK_FALSE(stock.odd);
}

TEST_CASE("scale and rows are weighed against each other") {
  const State state = state_of(kWeighedOnce);
  const Stock stock = told_by(state);
  // By hand. The share starts as 1, variance 0.02^2 + 0.02^2 = 0.0008; the full mass has variance 100^2 / 12 = 833.33.
  // Expected 2,800, variance 833.33 + 2190^2 0.0008 = 4670.21, seen 2,600 with 833.33: together 5503.55.
  const OnBall& on = *stock.balls.front();
  CHECK(on.left.cm() == doctest::Approx(2800 - 200 * 4670.21333 / 5503.54667).epsilon(1e-7));
  CHECK(on.plus_minus.cm() == doctest::Approx(std::sqrt(4670.21333 * 833.33333 / 5503.54667)).epsilon(1e-6));
  CHECK(stock.takes.share == doctest::Approx(1 + 200 * 1.752 / 5503.54667).epsilon(1e-7));
  CHECK(stock.takes.plus_minus ==
        doctest::Approx(std::sqrt(0.0008 - 1.752 * 1.752 / 5503.54667 + 0.0001)).epsilon(1e-6));
  CHECK(on.with_takes.cm() == doctest::Approx(-1.752 * 833.33333 / 5503.54667).epsilon(1e-6));
  // What the label may promise too much counts as well for somebody with a tape.
  CHECK(give_or_take(on, stock.doubts).cm() ==
        doctest::Approx(std::hypot(on.plus_minus.cm(), 0.02 * on.left.cm())).epsilon(1e-9));
}

TEST_CASE("rows left are yarn left by what a row takes, and wider the further off") {
  const OnBall on{Length::cm(1100), Length::cm(11), Length()};
  const Rows rows = rows_left(on, {1.1, 0.022}, 100_cm);
  // By hand: 1100 / 110 = 10; 11 / 110 = 0.1 and 10 x 0.02 = 0.2 make 0.2236; nine in ten lie within 1.645 of it.
  CHECK(rows.rows == doctest::Approx(10));
  CHECK(rows.high - rows.rows == doctest::Approx(1.6448536 * std::sqrt(0.05)).epsilon(1e-6));
  CHECK(rows.low == doctest::Approx(20 - rows.high));
}

TEST_CASE("several weighings tell a row as a batch of least squares does") {
  // share, plus_minus: numpy.linalg.lstsq over the ball's full yarn, the first stretch's share and each drift, weighed
  // with the scale's rounding and 0.01; the next drift added to the doubt.
  struct Row {
    std::vector<std::string> more;
    double share, plus_minus;
  };
  // After kWeighedOnce: 2,600 cm seen at row 20.
  for (const Row& row : {
           Row{{"row, row: 30", "weigh, ball: A, mass: 15 g"}, 1.0625335428839966, 0.01404883564723588},
           {{"row, row: 30", "swatch, ball: A, length: 100 cm", "weigh, ball: A, mass: 14 g"},
            1.0625335428839966,
            0.01404883564723588},
           // What was ravelled and weighs again came back, on a scale that shows 0.1 g, the first two on one of 1 g.
           {{"rip, row: 10", "weigh, ball: A, mass: 37.9 g"}, 1.089184313847483, 0.020606749653969882},
       }) {
    CAPTURE(row.more.back());
    const Stock stock = told_by(state_of(kWeighedOnce, row.more));
    REQUIRE(stock.measured);
    CHECK(stock.measured->share == doctest::Approx(row.share).epsilon(1e-5));
    CHECK(stock.measured->plus_minus == doctest::Approx(std::hypot(row.plus_minus, 0.01)).epsilon(1e-4));
  }
}

TEST_CASE("a gauge told later keeps what weighings said only where it comes nearer to that") {
  struct Row {
    const char* gauge;
    bool kept;
  };
  // Weighed: 120 a row, 110 by the gauge.
  for (const Row& row : {Row{"gauge, yarn_per_stitch: 2.19 cm", true},           // 119.5
                         {"gauge, yarn_per_stitch: 2.1 cm", true},               // 115
                         {"gauge, yarn_per_stitch: 3 cm", false},                // 160
                         {"gauge, yarn_per_stitch: 1.9 cm", false},              // 105
                         {"gauge, yarn_per_stitch: 2.19 cm, size: 5 mm", true},  // told for the first time
                         {"gauge, stitches_in_10cm: 22", true}}) {
    CAPTURE(row.gauge);
    const Stock stock = told_by(state_of(kWeighedOnce, {row.gauge}));
    CHECK(stock.measured.has_value() == row.kept);
    CHECK((stock.takes.share != 1) == row.kept);
  }
  CHECK_FALSE(told_by(state_of(kWeighedOnce, {"cancel, entry: 4"})).measured);
}

TEST_CASE("another hook or needle throws away what weighings said, the same one written otherwise does not") {
  struct Row {
    const char *before, *after;
    bool kept;
  };
  for (const Row& row : {Row{"4 mm", "4 mm", true},
                         {"4 mm", "4mm", true},
                         {"4 mm", "4.0 MM", true},
                         {"4 mm", "hook G", true},
                         {"my blue one", "My blue one", true},
                         {"4 mm", "4.5 mm", false},
                         {"4 mm", "my blue one", false},
                         {"my blue one", "my red one", false}}) {
    CAPTURE(std::string(row.before) + ", " + row.after);
    const std::string size = "gauge, size: ";
    std::vector<std::string> log{size + row.before};
    log.insert(log.end(), kWeighedOnce.begin(), kWeighedOnce.end());
    const Stock stock = told_by(state_of(log, {size + row.after}));
    CHECK(stock.measured.has_value() == row.kept);
    CHECK((stock.takes.share != 1) == row.kept);
  }
}

TEST_CASE("a ball not on the scale tells nothing of a row and is known as any other") {
  const State state = state_of({"ball, ball: A", "ball, ball: B, mass: 49.6 g", "begin, ball: A", "row, row: 20"});
  const Stock stock = told_by(state);
  CHECK_FALSE(stock.measured);
  CHECK(stock.takes.share == 1);
  // By hand: 5,000 less 2,200; 2 % of 5,000 and 2,190 sqrt(0.0008).
  CHECK(stock.balls[0]->left.cm() == doctest::Approx(2800));
  CHECK(stock.balls[0]->plus_minus.cm() == doctest::Approx(std::hypot(100, 2190 * std::sqrt(0.0008))).epsilon(1e-9));
  // A mass to 0.1 g: 10 cm / sqrt(12).
  CHECK(stock.balls[1]->left.cm() == doctest::Approx(4960));
  CHECK(stock.balls[1]->plus_minus.cm() == doctest::Approx(10 / std::sqrt(12.0)).epsilon(1e-9));
}

// By the gauge a row takes 110; here it takes 135, a gram of 100 every 20 mm of it, on a scale of 0.1 g.
TEST_CASE("a gauge that is not the work's is learnt once weighings bear it out") {
  std::vector<std::string> log{"ball, ball: A, mass: 100.0 g, scale: 0.1 g", "begin, ball: A"};
  const auto weigh = [&](int row) {
    log.push_back("row, row: " + std::to_string(row));
    const double left = 100 - 0.1 - 1.35 * (row - 1) - 1.25;
    log.push_back("weigh, ball: A, scale: 0.1 g, mass: " + std::to_string(std::round(left * 10) / 10) + " g");
    return told_by(fold_of(log));
  };
  const Stock once = weigh(10);
  CHECK(once.odd == 0);
  CHECK_FALSE(once.measured);
  CHECK(once.suspect == 4);
  // Not more rows than the least that is plausible.
  CHECK(once.takes.share > 1.15);
  for (const int row : {20, 30, 40}) {
    CAPTURE(row);
    const Stock again = weigh(row);
    CHECK_FALSE(again.odd);
    REQUIRE(again.measured);
    CHECK(again.takes.share == doctest::Approx(135.0 / 110).epsilon(0.015));
    CHECK(again.takes.plus_minus < 0.03);
  }
}

TEST_CASE("one weighing that was misread does not stay believed") {
  // 120 g, a row takes 110 as told; at row 20 the scale was read 10 g too heavy.
  const std::vector<std::string> log{"ball, ball: A, mass: 120.0 g, scale: 0.1 g",
                                     "begin, ball: A",
                                     "row, row: 20",
                                     "weigh, ball: A, mass: 108.0 g, scale: 0.1 g",
                                     "row, row: 40",
                                     "weigh, ball: A, mass: 76.0 g, scale: 0.1 g",
                                     "row, row: 60",
                                     "weigh, ball: A, mass: 54.0 g, scale: 0.1 g"};
  const Stock stock = told_by(fold_of(log));
  CHECK(stock.takes.share == doctest::Approx(1).epsilon(0.02));
  CHECK(stock.balls[0]->left.cm() == doctest::Approx(5400).epsilon(0.01));
}

TEST_CASE("where rows and scale don't go together, the ball that was weighed so is named, whatever was weighed since") {
  const std::vector<std::string> log{"ball, ball: A, mass: 100 g",
                                     "ball, ball: B, mass: 100 g",
                                     "ball, ball: P, plain: true",
                                     "begin, ball: A",
                                     "row, row: 12",
                                     "weigh, ball: A, mass: 84 g",
                                     "row, row: 13",
                                     "weigh, ball: A, mass: 70 g"};
  REQUIRE(told_by(state_of(log)).odd == 0);
  for (const char* more : {"weigh, ball: P, mass: 40 g", "weigh, ball: B, mass: 99 g"}) {
    CAPTURE(std::string(more));
    const Stock stock = told_by(state_of(log, {more}));
    CHECK(stock.odd == 0);
    CHECK((stock.suspect == 6 || stock.suspect == 8));  // one of its own
  }
}

TEST_CASE("a knot ahead of the work sets rows and scale at no odds") {
  const auto weighed = [](bool knot) {
    std::vector<std::string> log{"ball, ball: A, mass: 50 g", "begin, ball: A", "row, row: 18"};
    if (knot) log.emplace_back("join, ball: A, knot: true, method: threaded");
    return told_by(state_of(log, {"row, row: 20", "rip, row: 10", "weigh, ball: A, mass: 38.9 g"}));
  };
  const Stock plain = weighed(false);
  const Stock knotted = weighed(true);
  CHECK_FALSE(knotted.odd);
  CHECK(knotted.balls[0]->plus_minus.cm() == doctest::Approx(plain.balls[0]->plus_minus.cm()));
  CHECK(knotted.balls[0]->left.cm() == doctest::Approx(plain.balls[0]->left.cm() - 10));  // what the knot takes
}

TEST_CASE("rows that were not recorded are no yarn in a row") {
  const Stock stock =
      told_by(state_of({"ball, ball: A, mass: 50 g", "begin, ball: A", "row, row: 10", "weigh, ball: A, mass: 12 g"}));
  CHECK(stock.odd == 0);
  CHECK_FALSE(stock.measured);
  CHECK(stock.balls[0]->left.cm() == doctest::Approx(1200));
}

}  // namespace
}  // namespace ballchange::stock
