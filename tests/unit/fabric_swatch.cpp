#include "fabric/swatch.hpp"

#include <doctest/doctest.h>

#include <vector>

// Expected values worked out by hand, from the formulas at the top of swatch.hpp.
namespace ballchange {
namespace {

Swatch counted(double mm, double stitches, Length over) { return {mm, Counted{stitches, over}, {}, {}}; }

TEST_CASE("one swatch: 33 stitches over 15 cm are 22 in 10 cm, give or take 1") {
  const std::vector<Swatch> one{counted(4, 33, 15_cm)};
  const auto found = gauges(one);
  REQUIRE(found.size() == 1);
  CHECK(found[0].mm == 4);
  CHECK(found[0].swatches == 1);
  REQUIRE(found[0].stitch);
  CHECK(!found[0].row);
  CHECK(!found[0].yarn);
  CHECK(found[0].stitch->in_10cm() == doctest::Approx(22).epsilon(1e-9));
  // counting 0.408248/33 = 0.012371, tape 0.204124/15 = 0.013608, hands 0.02: 0.027170 in all
  CHECK(found[0].stitch->share == doctest::Approx(0.027170).epsilon(1e-4));
  CHECK(found[0].stitch->give_or_take_in_10cm() == doctest::Approx(0.9832).epsilon(1e-3));
}

TEST_CASE("yarn by stitches measured, by row and by repeat") {
  struct Row {
    YarnTold told;
    double stitch, share;
  };
  const Row rows[] = {
      // tape 0.5 + 0.41 = 0.91 cm, counting 0.408248/20 of 41 cm = 0.83691 cm: 0.030154; with hands 0.036184
      {yarn_of_stitches(20, 41_cm), 2.05, 0.036184},
      // tape 0.5 + 1.1 = 1.6 cm of 110: 0.014545; with hands 0.024730
      {yarn_of_rows(33, 110_cm), 110.0 / 33, 0.024730},
      // 5.52 cm of 276: 0.02; counting 0.408248/147 = 0.0027772; with hands 0.028421
      {yarn_of_repeat(147, 276_cm, 5.52_cm), 276.0 / 147, 0.028421},
  };
  for (const Row& row : rows) {
    CAPTURE(row.stitch);
    const std::vector<Swatch> one{{4, {}, {}, {row.told}}};
    const auto found = gauges(one);
    REQUIRE(found[0].yarn);
    CHECK(found[0].yarn->mean.cm() == doctest::Approx(row.stitch).epsilon(1e-9));
    CHECK(found[0].yarn->share == doctest::Approx(row.share).epsilon(1e-4));
  }
}

TEST_CASE("two swatches at one size that agree are known better, two that don't are known worse") {
  const std::vector<Swatch> agree{counted(4, 20, 10_cm), counted(4, 20, 10_cm)};
  const std::vector<Swatch> one{counted(4, 20, 10_cm)};
  const std::vector<Swatch> differ{counted(4, 20, 10_cm), counted(4, 24, 10_cm)};
  CHECK(gauges(agree)[0].stitch->share < gauges(one)[0].stitch->share);
  // s^2 = (4 0.02^2 + 0.0166207 - (0.00083333 + 0.00070602)/2) / 5 = 0.0034902; weights 231.29 and 238.31
  const auto found = gauges(differ);
  REQUIRE(found.size() == 1);
  CHECK(found[0].swatches == 2);
  CHECK(found[0].stitch->share == doctest::Approx(0.046146).epsilon(1e-3));
  CHECK(found[0].stitch->in_10cm() == doctest::Approx(21.939).epsilon(1e-4));
}

TEST_CASE("sizes stand apart, from thin to thick, swatches of no size first") {
  const std::vector<Swatch> some{counted(5, 18, 10_cm), counted(3.5, 24, 10_cm), {{}, Counted{20, 10_cm}, {}, {}}};
  const auto found = gauges(some);
  REQUIRE(found.size() == 3);
  CHECK(!found[0].mm);
  CHECK(found[1].mm == 3.5);
  CHECK(found[2].mm == 5);
}

TEST_CASE("a swatch twice as wide, or one more, sharpens the gauge") {
  const std::vector<Swatch> one{counted(4, 33, 15_cm)};
  const auto found = sharper(one, 4);
  REQUIRE(found);
  CHECK(found->wider == 30_cm);
  // measuring 0.018391 / 2 and hands 0.02; 0.027170 / sqrt(2)
  CHECK(found->with_wider.share == doctest::Approx(0.022013).epsilon(1e-4));
  CHECK(found->with_another.share == doctest::Approx(0.019212).epsilon(1e-4));
  CHECK(!sharper(one, 5));
}

TEST_CASE("swatches that can't both be right are told from those that hands and tools explain") {
  struct Row {
    double mm, count, other_mm, other_count;  // over 15 cm
    bool disagree;
  };
  for (const Row& row :
       {Row{4, 33, 4, 12, true}, Row{4, 33, 4, 29, false}, Row{4, 33, 3, 20, true}, Row{4, 33, 3, 36, false},
        Row{4, 33, 3, 45, false}, Row{4, 33, 3, 80, true}, Row{4, 33, 8, 20, false}, Row{4, 6, 4, 5, false}}) {
    CAPTURE(row.other_mm);
    CAPTURE(row.other_count);
    const std::vector<Swatch> swatches{{row.mm, Counted{row.count, 15_cm}, {}, {}},
                                       {row.other_mm, Counted{row.other_count, 15_cm}, {}, {}}};
    CHECK(disagreement(swatches).has_value() == row.disagree);
  }
  const std::vector<Swatch> three{
      {4, Counted{33, 15_cm}, {}, {}}, {4, {}, Counted{20, 10_cm}, {}}, {4, {}, Counted{40, 10_cm}, {}}};
  const auto two = disagreement(three);
  REQUIRE(two);
  CHECK(two->one == 1);
  CHECK(two->other == 2);
  CHECK(two->which == &Swatch::rows);
}

}  // namespace
}  // namespace ballchange
