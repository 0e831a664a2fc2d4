#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/normal.hpp"
#include "stock/by_weight.hpp"
#include "stock/enough.hpp"
#include "unit/ledger_log.hpp"

namespace ballchange::stock {
namespace {

// ledger_log.hpp: rows of 110, a gram 100 cm, a ball 5,000; R 276.
Joining joining() { return {276_cm, 10_cm, 4_cm}; }

Outlook told_by(const State& state, const Joining& by = joining()) {
  const auto told = outlook(state, stock_of(state, doubts_of(state)), by);
  REQUIRE(told);
  return *told;
}

TEST_CASE("on the last ball the chance is that of its yarn against the rows left") {
  // 100 rows planned. 1,100 cm are needed for the last 10.
  for (const int grams : {10, 11, 12, 13}) {
    CAPTURE(grams);
    const State state =
        fold_of({"ball, ball: A", "ball, ball: B, mass: 50 g", "begin, ball: A", "row, row: 50", "join, ball: B",
                 "row, row: 90", "weigh, ball: B, mass: " + std::to_string(grams) + " g"});
    const Stock stock = stock_of(state, doubts_of(state));
    const OnBall& on = *stock.balls[1];
    // By hand from what the stock says: y - k 1100 is normal.
    const double mean = on.left.cm() - stock.takes.share * 1100;
    const double variance =
        std::pow(on.plus_minus.cm(), 2) + std::pow(1100 * stock.takes.plus_minus, 2) - 2 * 1100 * on.with_takes.cm();
    const Outlook told = told_by(state);
    CHECK(told.joins == 0);
    CHECK(told.needed.cm() == doctest::Approx(1100 * stock.takes.share));
    CHECK(told.chance == doctest::Approx(normal_cdf(mean / std::sqrt(variance))).epsilon(1e-6));
  }
}

TEST_CASE("with one join to come the chance is the mean over what it cuts off") {
  const State state = fold_of({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 12"});
  const Outlook told = told_by(state);
  CHECK(told.joins == 1);
  // Needed 88 rows, 9,680; held 10,000 - 1,320 = 8,680: hopeless.
  CHECK(told.needed.cm() == doctest::Approx(9680));
  CHECK(told.chance < 0.001);
  // What may be left out: with r rows less the chance is the mean of normals over even trims up to R - t, or none.
  const Stock stock = stock_of(state, doubts_of(state));
  const auto chance = [&](int rows) {
    const double needed = 9680 - 110.0 * rows;
    const double variance = std::pow(stock.balls[0]->plus_minus.cm(), 2) +
                            std::pow(stock.balls[1]->plus_minus.cm(), 2) +
                            std::pow(needed * stock.takes.plus_minus, 2) - 2 * 9680 * stock.balls[0]->with_takes.cm();
    double sum = 0;
    constexpr int kSteps = 5520;
    for (int k = 0; k < kSteps; ++k) {
      const double u = 276 * (k + 0.5) / kSteps;
      sum += normal_cdf((8680 - needed - 10 - (u < 272 ? u : 0)) / std::sqrt(variance));
    }
    return sum / kSteps;
  };
  REQUIRE(told.leave_out);
  CHECK(chance(*told.leave_out) >= kSurely - 1e-4);
  CHECK(chance(*told.leave_out - 1) < kSurely + 1e-4);
  REQUIRE(told.with_one_more);
  CHECK(*told.with_one_more > 0.99);
}

TEST_CASE("no more rows are left out than are yet to be begun") {
  const State state = fold_of({"ball, ball: A", "begin, ball: A", "row, row: 44"});
  const Stock stock = stock_of(state, doubts_of(state));
  const auto left_out = [&](std::optional<int> rows) { return outlook(state, stock, joining(), rows)->leave_out; };
  REQUIRE(left_out(std::nullopt));
  const int least = *left_out(std::nullopt);
  CHECK(left_out(least) == least);
  CHECK_FALSE(left_out(least - 1));
}

TEST_CASE("of a piece that is not begun one row is left at least") {
  const State state = fold_of({"ball, ball: A, mass: 1 g"});
  CHECK_FALSE(outlook(state, stock_of(state, doubts_of(state)), joining(), 100)->leave_out);
  // A gram more than the foundation and a row take, by far.
  const State some = fold_of({"ball, ball: A, mass: 4 g"});
  CHECK(outlook(some, stock_of(some, doubts_of(some)), joining(), 100)->leave_out.value_or(100) < 100);
}

TEST_CASE("offcuts count for the ball that goes on, where none is in the work") {
  const auto first_holds = [](const std::vector<std::string>& more) {
    std::vector<std::string> log{"ball, ball: B", "row, row: 10", "join, ball: B, method: woven, trim_new: 3 m"};
    log.insert(log.end(), more.begin(), more.end());
    const State state = fold_of(log);
    REQUIRE_FALSE(state.working);
    const auto work = work_to_come(state, stock_of(state, doubts_of(state)), joining());
    REQUIRE(work);
    REQUIRE(work->on_hand.size() == 1);
    return work->on_hand.front().yarn->cm();
  };
  // 300 less what its join takes, 10.
  CHECK(first_holds({"ball, ball: X, offcut: 3", "rip, row: 5"}) ==
        doctest::Approx(first_holds({"rip, row: 5"}) + 290));
}

TEST_CASE("how many whole repeats may still be cut off") {
  // Three joins to come. What surely is left over, less three allowances, holds so many repeats of 276.
  for (const int rows : {178, 175, 172, 168}) {
    CAPTURE(rows);
    std::string piece(kPiece);
    piece.replace(piece.find("rows: 100"), 9, "rows: " + std::to_string(rows));
    const State state = fold_of({"ball, ball: A, mass: 50.0 g", "ball, ball: B, mass: 50.1 g",
                                 "ball, ball: C, mass: 50.1 g", "ball, ball: D, mass: 50.1 g", "begin, ball: A"},
                                piece);
    const Outlook told = told_by(state);
    const double needed = 10 + 110.0 * rows;
    const double spread = std::hypot(needed * std::sqrt(0.0008), 10 / std::sqrt(12.0) * 2);
    const double may = 20'030 - needed - 1.6448536 * spread - 30;
    CHECK(told.may_cut.cm() == doctest::Approx(std::max(0.0, may)).epsilon(1e-4));
    CHECK(told.joins == 3);
    CHECK(told.full_cuts == static_cast<int>(std::min(3.0, std::floor(std::max(0.0, may) / 276))));
  }
}

TEST_CASE("balls that surely are not needed are not joined") {
  std::vector<std::string> log{"ball, ball: A", "ball, ball: B", "ball, ball: C",
                               "ball, ball: D", "ball, ball: E", "begin, ball: A"};
  const Outlook told = told_by(fold_of(log));
  // 11,010 are needed, three balls hold 15,000.
  CHECK(told.joins == 2);
  CHECK(told.full_cuts == 2);
  CHECK(told.chance > 0.99);
}

TEST_CASE("nothing is told where it can't be known") {
  const auto told = [](const std::vector<std::string>& log, const std::string& piece = kPiece) {
    const State state = fold_of(log, piece);
    return outlook(state, stock_of(state, doubts_of(state)), joining()).has_value();
  };
  CHECK_FALSE(
      told({"ball, ball: A", "begin, ball: A", "row, row: 10"}, "piece: {stitches: 50, yarn_per_stitch: 2 cm}\n"));
  CHECK_FALSE(told({"ball, ball: A", "begin, ball: A", "row, row: 60"}));  // more rows than the ball holds
  CHECK(told({"ball, ball: A", "begin, ball: A", "row, row: 10"}));
}

TEST_CASE("what is worked already needs nothing") {
  const Outlook told =
      told_by(fold_of({"ball, ball: A", "ball, ball: B", "ball, ball: C", "begin, ball: A", "row, row: 40",
                       "join, ball: B", "row, row: 80", "join, ball: C", "row, row: 100"}));
  CHECK(told.chance == 1);
  CHECK(told.joins == 0);
}

TEST_CASE("whole diamonds are left out") {
  // R 276, turned: 2 W = 2 x 141 = 282, g = 3; a diamond is 276 / 3 = 92 rows.
  const Colouring yarn{276_cm, 46_cm, 2_cm, 1_cm, Working::rows};
  REQUIRE(row_of(yarn, 70).cm() == doctest::Approx(141));
  const auto told = whole_diamonds(yarn, 70, 93);
  REQUIRE(told);
  CHECK(told->look == Look::argyle);
  CHECK(told->count == 2);
  CHECK(told->rows == 184);
  CHECK(whole_diamonds(yarn, 70, 92)->count == 1);
}

TEST_CASE("a ring closes above and below the planned height") {
  // Rounds of 92: three of them are the repeat.
  const Colouring yarn{276_cm, 46_cm, 2_cm, 0_cm, Working::rounds};
  const Rings rings = rings_near(yarn, 46, 100, 1_cm);
  REQUIRE(rings.below);
  REQUIRE(rings.above);
  CHECK(rings.below->rows == 99);
  CHECK(rings.above->rows == 102);
  CHECK(rings_near(yarn, 46, 99, 1_cm).below->rows == 99);
}

TEST_CASE("a ring closes by what the rounds so far really took") {
  const Colouring yarn{276_cm, 46_cm, 2_cm, 0_cm, Working::rounds};
  struct Row {
    double worked;  // cm in 50 rounds
    int below, above;
  };
  // 50 x 92 = 4600 as all are, and 4600 + 92 n = 276 m at n = 1, 4 ... With 46 cm more the sum never comes to a whole
  // number of repeats; with 92 more every third does, one round sooner.
  for (const Row& row : {Row{4600, 99, 102}, {4646, 0, 0}, {4692, 98, 101}}) {
    CAPTURE(row.worked);
    const Rings rings = rings_near(yarn, 46, 100, 1_cm, {50, Length::cm(row.worked)});
    CHECK((rings.below ? rings.below->rows : 0) == row.below);
    CHECK((rings.above ? rings.above->rows : 0) == row.above);
  }
}

TEST_CASE("a plain ball is counted by weights alone") {
  // 40 g hold 80 m. 21 rows of stripes took 3 g: 7 rows a gram.
  const State state =
      fold_of({"ball, ball: A", "begin, ball: A", "ball, ball: P, plain: true, mass: 40 g, length: 80 m",
               "row, row: 10", "weigh, ball: P, mass: 33 g", "row, row: 31", "weigh, ball: P, mass: 30 g"});
  const ByWeight told = by_weight(state, 1, doubts_of(state));
  REQUIRE(told.left);
  CHECK(told.left->cm() == doctest::Approx(6000));
  // 1 g / sqrt(12) is 57.7 cm, 2 % of 60 m 120.
  CHECK(told.plus_minus.cm() == doctest::Approx(std::hypot(200 / std::sqrt(12.0), 120)).epsilon(1e-9));
  REQUIRE(told.per_row);
  CHECK(told.per_row->rows == doctest::Approx(21));
  CHECK(told.per_row->mass.g() == doctest::Approx(3.0 / 21));
  CHECK(told.per_row->left == doctest::Approx(210));
  CHECK(chance_for(told, 6000_cm) == doctest::Approx(0.5));
  // 210 rows more would use 30 g: over 0, give or take 0.2887 hypot(11, 10).
  CHECK(chance_for_rows(told, 210) == doctest::Approx(0.5));
  const double over = 30 - 69 * 3.0 / 21;
  const double part = 69.0 / 21;
  CHECK(chance_for_rows(told, 69) ==
        doctest::Approx(normal_cdf(over / (std::hypot(1 + part, part) / std::sqrt(12.0)))).epsilon(1e-9));
}

TEST_CASE("a plain ball's rate does not run across what was ravelled") {
  const std::vector<std::string> log{"ball, ball: A",
                                     "begin, ball: A",
                                     "ball, ball: P, plain: true, mass: 50 g, length: 120 m",
                                     "row, row: 40",
                                     "weigh, ball: P, mass: 40 g",
                                     "row, row: 100",
                                     "weigh, ball: P, mass: 10 g",
                                     "rip, row: 50",
                                     "weigh, ball: P, mass: 10 g"};
  CHECK_FALSE(by_weight(fold_of(log), 1, doubts_of(fold_of(log))).per_row);
  std::vector<std::string> on = log;
  on.insert(on.end(), {"row, row: 60", "weigh, ball: P, mass: 5 g"});
  const ByWeight told = by_weight(fold_of(on), 1, doubts_of(fold_of(on)));
  REQUIRE(told.per_row);
  CHECK(told.per_row->mass.g() == doctest::Approx(0.5));
}

TEST_CASE("a weighing that says no length leaves none") {
  const std::vector<std::string> log{"ball, ball: P, plain: true, length: 120 m", "weigh, ball: P, mass: 5 g"};
  CHECK_FALSE(by_weight(fold_of(log), 0, doubts_of(fold_of(log))).left);
  std::vector<std::string> told = log;
  told.push_back("ball, ball: P, mass: 50 g, length: 120 m");
  // A tenth of it.
  CHECK(by_weight(fold_of(told), 0, doubts_of(fold_of(told))).left->cm() == doctest::Approx(1200));
}

TEST_CASE("a plain ball of unknown length still tells rows") {
  const State state = fold_of({"ball, ball: P, plain: true", "row, row: 10", "weigh, ball: P, mass: 33 g",
                               "row, row: 20", "weigh, ball: P, mass: 23 g"});
  const ByWeight told = by_weight(state, 0, doubts_of(state));
  CHECK_FALSE(told.left);
  REQUIRE(told.per_row);
  CHECK(told.per_row->left == doctest::Approx(23));
}

// Without the yarn a stitch takes; a gram holds a metre.
const std::string kNoGauge = "piece: {stitches: 50, rows: 100, foundation: 1 m}\n";

TEST_CASE("a dyed ball is counted by weights while the yarn a stitch takes isn't known") {
  struct Case {
    std::string what;
    std::vector<std::string> log;
    double left;   // m
    double a_row;  // g; 0: not known
  };
  const std::vector<std::string> begun{"ball, ball: A, mass: 50 g", "begin, ball: A, trim_new: 2 m", "row, row: 40"};
  const auto and_then = [&](std::vector<std::string> more) {
    std::vector<std::string> log = begun;
    log.insert(log.end(), more.begin(), more.end());
    return log;
  };
  const std::string join = "join, ball: B, row: 60, trim_new: 4 m, allowance: 10 cm";
  const std::vector<Case> cases{
      {"from the start, the trim and the foundation taken off", and_then({"weigh, ball: A, mass: 27 g"}), 27, 0.5},
      {"from its first weighing on, no rows between", and_then({"weigh, ball: A, mass: 27 g", "rip, row: 30"}), 27,
       0.5},
      {"ravelled since", and_then({"rip, row: 30", "weigh, ball: A, mass: 27 g"}), 27, 0},
      {"from where it was joined",
       and_then({"ball, ball: B, mass: 50 g", join, "row, row: 80", "weigh, ball: B, mass: 36 g"}), 36, 0.5},
      {"as weighed before it was joined",
       and_then({"ball, ball: B, mass: 50 g", "weigh, ball: B, mass: 45 g", join, "row, row: 80",
                 "weigh, ball: B, mass: 36 g"}),
       36, 0.25},
      {"joined who knows where",
       and_then({"ball, ball: B, mass: 50 g", join + ", at_least: true", "row, row: 80", "weigh, ball: B, mass: 36 g"}),
       36, 0},
      {"weighed where its first row begins",
       {"ball, ball: A, mass: 50 g", "begin, ball: A", "weigh, ball: A, mass: 47 g", "row, row: 20",
        "weigh, ball: A, mass: 37 g"},
       37,
       0.5},
      {"weighed at its join",
       and_then({"ball, ball: B, mass: 50 g", join, "weigh, ball: B, mass: 44 g", "row, row: 66",
                 "weigh, ball: B, mass: 41 g"}),
       41, 0.5},
      {"a swatch between",
       and_then({"weigh, ball: A, mass: 28 g", "swatch, ball: A, length: 5 m", "row, row: 50",
                 "weigh, ball: A, mass: 18 g", "row, row: 60", "weigh, ball: A, mass: 13 g"}),
       13, 0.5},
      {"a knot between",
       and_then({"weigh, ball: A, mass: 28 g", "join, ball: A, knot: true, row: 40, trim_old: 5 m, trim_new: 5 m",
                 "row, row: 50", "weigh, ball: A, mass: 13 g"}),
       13, 0},
      {"another hook between",
       and_then({"gauge, size: hook 4 mm", "weigh, ball: A, mass: 30 g", "gauge, size: hook 8 mm", "row, row: 44",
                 "weigh, ball: A, mass: 26 g", "row, row: 48", "weigh, ball: A, mass: 22 g"}),
       22, 1},
      {"its own length and no mass, a gram by the ball band",
       {"ball, ball: A, length: 61 m", "begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 50 g"},
       50,
       0.5},
      {"never weighed whole, by the ball band",
       {"ball, ball: A", "begin, ball: A", "row, row: 98", "weigh, ball: A, mass: 0 g"},
       0,
       0.5},
  };
  for (const Case& c : cases) {
    CAPTURE(c.what);
    const State state = fold_of(c.log, kNoGauge);
    const ByWeight told = by_weight(state, *state.working, doubts_of(state));
    REQUIRE(told.left);
    CHECK(told.left->cm() == doctest::Approx(100 * c.left));
    CHECK(told.per_row.has_value() == (c.a_row > 0));
    if (!told.per_row) continue;
    CHECK(told.per_row->mass.g() == doctest::Approx(c.a_row));
    CHECK(row_by_weight(told)->cm() == doctest::Approx(100 * c.a_row));
  }
}

}  // namespace
}  // namespace ballchange::stock
