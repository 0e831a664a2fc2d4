#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "stock/stops.hpp"
#include "unit/ledger_log.hpp"

namespace ballchange::stock {
namespace {

Stock exact(const State& state) {
  Doubts doubts = doubts_of(state);
  doubts.label = doubts.spread = doubts.gauge = doubts.drift = 0;
  doubts.scale = Mass();
  return stock_of(state, doubts);
}

TEST_CASE("a ball ends where its yarn does") {
  // ledger_log.hpp: foundation 10, rows of 110, stitches of 2 and a turn of 10.
  const State state =
      fold_of({"ball, ball: A, mass: 28 g", "begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 6 g"});
  const auto end = ending(state, exact(state));
  REQUIRE(end);
  // 600 cm: 5 rows are 550, then a turn and 20 stitches of row 26.
  CHECK(end->rows.rows == doctest::Approx(600.0 / 110));
  CHECK(text_of(end->at) == "26:20");
  CHECK(text_of(end->low) == text_of(end->high));
}

TEST_CASE("before the first row the foundation comes off the ball") {
  const State state = fold_of({"ball, ball: A", "begin, ball: A"});
  const auto end = ending(state, exact(state));
  REQUIRE(end);
  CHECK(end->rows.rows == doctest::Approx((5000.0 - 10) / 110));
}

TEST_CASE("the work stops where the join and the room before it are still loose") {
  const State state =
      fold_of({"ball, ball: A, mass: 28 g", "begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 6 g"});
  const Stock stock = exact(state);
  const auto end = ending(state, stock);
  REQUIRE(end);
  // The ball ends at stitch 20 of row 26, 25 cm before that are 12 stitches and a half.
  CHECK(text_of(stop_by(state, stock, *end, 25_cm)) == "26:7");
  CHECK(text_of(stop_by(state, stock, *end, 24_cm)) == "26:8");
  CHECK(text_of(stop_by(state, stock, *end, 45_cm)) == "25:50");
  CHECK(text_of(stop_by(state, stock, *end, 600_cm)) == "20:50");
  CHECK_FALSE(stop_by(state, stock, *end, 605_cm));
}

TEST_CASE("the end is laid out before the row after which it would be too short") {
  struct Row {
    double length;
    int before_row;
    bool now;
  };
  const State state =
      fold_of({"ball, ball: A, mass: 28 g", "begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 6 g"});
  const auto end = ending(state, exact(state));
  // 600 left after row 20: after row 24 160 are left, after row 25 50.
  for (const Row& row : {Row{160, 25, false},
                         {165, 24, false},
                         {50, 26, false},
                         {45, 26, false},
                         {490, 22, false},
                         {495, 21, true},
                         {700, 21, true}}) {
    CAPTURE(row.length);
    const auto told = lay_out(state, exact(state), *end, Length::cm(row.length));
    REQUIRE(told);
    CHECK(told->before_row == row.before_row);
    CHECK(told->now == row.now);
  }
}

TEST_CASE("what is left loose makes as many rows as a row takes by the scale") {
  const State state =
      fold_of({"ball, ball: A, mass: 28 g", "begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 6 g"});
  Stock stock = exact(state);
  stock.takes.share = 0.938;
  const auto end = ending(state, stock);
  REQUIRE(end);
  // By hand: 600 left, a row takes 110 x 0.938 = 103.18: 5.815 rows. 190 makes 1.841 of them, so row 24 is not
  // finished with it left; 185 makes 1.793.
  CHECK(lay_out(state, stock, *end, 190_cm)->before_row == 24);
  CHECK(lay_out(state, stock, *end, 185_cm)->before_row == 25);
  // 165 makes 1.599: 4.216 rows more, 463.8 cm by the gauge, 13.8 of it in stitches of 2 cm in row 25.
  CHECK(text_of(stop_by(state, stock, *end, 165_cm)) == "25:6");
}

TEST_CASE("in mid-row the row that comes next is the one to leave") {
  const State state = fold_of(
      {"ball, ball: A, mass: 24.5 g", "begin, ball: A", "row, row: 20, stitch: 25", "weigh, ball: A, mass: 3 g"});
  const auto end = ending(state, exact(state));
  // 300 left in mid-row 20: 50 end the row.
  CHECK(lay_out(state, exact(state), *end, 250_cm)->before_row == 21);
  CHECK(lay_out(state, exact(state), *end, 255_cm)->before_row == 20);
  CHECK(lay_out(state, exact(state), *end, 255_cm)->now);
}

TEST_CASE("so much is laid out that a change shows wherever the ball ends") {
  const State state = fold_of({});
  // plum 150 and rust 126, an overlap of 10, 15 of room.
  CHECK(to_lay_out(state.yarn.repeat, 10_cm, 15_cm).cm() == doctest::Approx(301));
}

TEST_CASE("what a join costs is where the two ends lie on the repeat") {
  // INTERFACE's example: places 133 and 77, overlap 8, R 276: 48.
  const Joining joining{276_cm, 8_cm, 0_cm};
  struct Row {
    End old_end;
    End fresh;
    double trims;  // by hand, (p_e - p_s - m) mod R; backward the other way round
  };
  for (const Row& row : {Row{{133_cm, false}, {77_cm, false}, 48},
                         {{77_cm, false}, {133_cm, false}, 212},
                         {{85_cm, false}, {77_cm, false}, 0},
                         {{77_cm, true}, {133_cm, true}, 48}}) {
    CAPTURE(row.trims);
    const Stops told = stops(row.old_end, {{"B", row.fresh}}, joining, Length(), Length(), 20_cm);
    REQUIRE(told.joins.size() == 1);
    CHECK(told.joins.front().trims.cm() == doctest::Approx(row.trims));
    CHECK(told.joins.front().shift.cm() == doctest::Approx(0));
  }
}

TEST_CASE("joins are told cheapest first, a ball that runs the other way is not one") {
  const Joining joining{276_cm, 8_cm, 4_cm};
  const Stops told = stops(
      {133_cm, false}, {{"B", {140_cm, false}}, {"C", {77_cm, false}}, {"D", {77_cm, true}}, {"E", {127_cm, false}}},
      joining, Length::cm(1.5), Length(), 20_cm);
  REQUIRE(told.joins.size() == 3);
  // E: 133 - 127 - 8 = -2, a skip of 2 within 4 - 1.5.
  CHECK(told.joins[0].ball == "E");
  CHECK(told.joins[0].trims.cm() == doctest::Approx(0));
  CHECK(told.joins[0].shift.cm() == doctest::Approx(2));
  CHECK(told.joins[1].ball == "C");
  CHECK(told.joins[2].ball == "B");
  CHECK(told.other == std::vector<std::string>{"D"});
}

TEST_CASE("a ball is told from its other end where that saves enough to turn it") {
  const Joining joining{276_cm, 8_cm, 0_cm};
  struct Row {
    double told, other;  // trims, by hand: 133 - place - 8
    bool turned;
  };
  for (const Row& row : {Row{48, 28, true}, {48, 28.5, false}, {48, 60, false}, {10, 0, false}, {212, 4, true}}) {
    CAPTURE(row.told);
    CAPTURE(row.other);
    const auto end = [](double trims) { return End{wrap(Length::cm(125 - trims), 276_cm), false}; };
    const Stops told =
        stops({133_cm, false}, {{"B", end(row.told)}, {"B", end(row.other), true}}, joining, Length(), Length(), 20_cm);
    REQUIRE(told.joins.size() == 1);
    CHECK(told.joins.front().other_end == row.turned);
    CHECK(told.joins.front().trims.cm() == doctest::Approx(row.turned ? row.other : row.told));
  }
}

TEST_CASE("kept from the start the shift in the work counts") {
  Joining joining{276_cm, 8_cm, 6_cm};
  joining.keep_from_start = true;
  // 5 repeated so far: 5 more come off.
  const Stops told = stops({133_cm, false}, {{"B", {77_cm, false}}}, joining, Length(), -5_cm, 20_cm);
  CHECK(told.joins.front().trims.cm() == doctest::Approx(53));
}

}  // namespace
}  // namespace ballchange::stock
