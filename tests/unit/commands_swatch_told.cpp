#include "commands/swatch_told.hpp"

#include <doctest/doctest.h>

#include <string>

#include "base/problem.hpp"

namespace ballchange {
namespace {

std::string refusal(const std::string& text, const SwatchTerms& terms = {}) {
  try {
    static_cast<void>(parse_swatch(text, terms, "--swatch"));
  } catch (const Problem& problem) {
    return problem.what();
  }
  return "none";
}

TEST_CASE("the pieces of a swatch may stand in any order") {
  for (const std::string text : {"4 mm, 33 st over 15 cm, 24 rows over 14.5 cm, 20 st take 41 cm",
                                 "20 stitches take 41, 24 Rows in 145mm,hook G,33 sts to 15",
                                 " g-6 ,  33 stitches across 0.15 m, 20 st use 41 cm , 24 rounds up 14 1/2 cm"}) {
    CAPTURE(text);
    const SwatchTold told = parse_swatch(text, {}, "--swatch");
    CHECK(told.swatch.mm == 4);
    REQUIRE(told.swatch.stitches);
    CHECK(told.swatch.stitches->count == 33);
    CHECK(told.swatch.stitches->over.cm() == doctest::Approx(15).epsilon(1e-9));
    REQUIRE(told.swatch.rows);
    CHECK(told.swatch.rows->count == 24);
    CHECK(told.swatch.rows->over.cm() == doctest::Approx(14.5).epsilon(1e-9));
    REQUIRE(told.swatch.yarn.size() == 1);
    CHECK(told.swatch.yarn[0].stitches == 20);
    CHECK(told.swatch.yarn[0].yarn.cm() == doctest::Approx(41).epsilon(1e-9));
  }
}

TEST_CASE("a size by its letter or number tells what it was taken for") {
  // E 3.5, F 3.75, G 4 mm in the council's table, though some makers' G is 4.25: common practice, no source.
  struct Row {
    std::string size;
    Tool usual, tool;
    double mm;
    std::string note;
  };
  const Row rows[] = {
      {"4.25mm", Tool::hook, Tool::hook, 4.25, ""},
      {"E", Tool::hook, Tool::hook, 3.5, "E taken as 3.5 mm"},
      {"F hook", Tool::needle, Tool::hook, 3.75, "F taken as 3.75 mm"},
      {"G", Tool::hook, Tool::hook, 4, "G taken as 4 mm; some makers' G is 4.25 mm"},
      {"US 8", Tool::needle, Tool::needle, 5, "US 8 taken as 5 mm"},
      {"4 mm needles", Tool::hook, Tool::needle, 4, ""},
  };
  for (const Row& row : rows) {
    CAPTURE(row.size);
    const SwatchTold told = parse_swatch(row.size + ", 33 st over 15 cm", {Unit::cm, row.usual, {}}, "--swatch");
    CHECK(told.swatch.mm == row.mm);
    CHECK(told.tool == row.tool);
    CHECK(told.size_note == row.note);
  }
}

TEST_CASE("yarn by rows, by the repeat, and what the swatch used") {
  const SwatchTold by_row = parse_swatch("4 rows of 33 st take 2.96 m, used 9 m of ball A", {}, "--swatch");
  REQUIRE(by_row.rows_taken);
  CHECK(by_row.rows_taken->rows == 4);
  CHECK(by_row.rows_taken->stitches == 33);
  CHECK(by_row.rows_taken->yarn.cm() == doctest::Approx(296).epsilon(1e-9));
  REQUIRE(by_row.used);
  CHECK(by_row.used->number == 9);
  CHECK(by_row.used->unit == Unit::m);
  CHECK(by_row.ball == "A");
  for (const std::string text : {"a row takes 1.1 m", "row takes 110", "1 round takes 110 cm", "each row uses 1.1m"}) {
    CAPTURE(text);
    const SwatchTold told = parse_swatch(text, {}, "--swatch");
    REQUIRE(told.rows_taken);
    CHECK(told.rows_taken->rows == 1);
    CHECK(!told.rows_taken->stitches);
    CHECK(told.rows_taken->yarn.cm() == doctest::Approx(110).epsilon(1e-9));
  }
  for (const std::string text :
       {"147 st a repeat", "147 stitches per repeat", "a repeat makes 147 st", "147 st to the repeat"}) {
    CAPTURE(text);
    CHECK(parse_swatch(text, {}, "--swatch").repeat_stitches == 147);
  }
}

TEST_CASE("stitches of a pattern are counted in whole multiples") {
  const SwatchTerms pairs{Unit::cm, Tool::hook, {2, 1}};
  CHECK(refusal("32 st over 15 cm", pairs) == "none");
  CHECK(refusal("33 st over 15 cm", pairs) == "none");  // the one more at the edge
  const SwatchTerms fours{Unit::cm, Tool::hook, {4, 1}};
  CHECK(refusal("34 st over 15 cm", fours) ==
        "--swatch, entry 1: 34 stitches are no whole multiples of 4: count 32 or 36, and measure that many");
  CHECK(refusal("33 st over 15 cm, 22 st take 41 cm", fours) ==
        "--swatch, entry 2: 22 stitches are no whole multiples of 4: count 20 or 24, and measure that many");
  CHECK(refusal("2 st take 4 cm", fours) ==
        "--swatch, entry 1: 2 stitches are no whole multiples of 4: count 4 or 8, and measure that many");
  CHECK(refusal("33 rows over 15 cm", fours) == "none");
}

TEST_CASE("a gauge that is wanted") {
  struct Row {
    std::string text;
    Unit bare;
    std::optional<double> stitch, row;  // cm
  };
  const Row rows[] = {
      {"22 st", Unit::cm, 10.0 / 22, {}},
      {"22 st", Unit::in, 10.16 / 22, {}},
      {"22 st 18 rows", Unit::cm, 10.0 / 22, 10.0 / 18},
      {"18 rows and 22 st", Unit::cm, 10.0 / 22, 10.0 / 18},
      {"20 st over 10 cm", Unit::in, 0.5, {}},
      {"5 st over 1in, 6 rows over 1 in", Unit::cm, 0.508, 2.54 / 6},
      {"20 st 24 rows over 8 cm", Unit::cm, 0.4, 8.0 / 24},
      {"24 rows", Unit::cm, {}, 10.0 / 24},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    const WantedGauge wanted = parse_wanted(row.text, row.bare, "--want");
    REQUIRE(wanted.stitch.has_value() == row.stitch.has_value());
    REQUIRE(wanted.row.has_value() == row.row.has_value());
    if (row.stitch) CHECK(wanted.stitch->cm() == doctest::Approx(*row.stitch).epsilon(1e-9));
    if (row.row) CHECK(wanted.row->cm() == doctest::Approx(*row.row).epsilon(1e-9));
  }
}

}  // namespace
}  // namespace ballchange
