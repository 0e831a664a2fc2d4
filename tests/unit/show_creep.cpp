#include <doctest/doctest.h>

#include <string>

#include "show/creep.hpp"
#include "unit/ledger_log.hpp"

using namespace ballchange;
using namespace ballchange::creeping;

namespace {

// Stitches of 2 cm by the gauge, 50 a row; one repeat is 276 cm, 138 stitches.
Creep creeping_by(double share, double sd) {
  Creep creep;
  creep.known = creep.ball_seen = true;
  creep.counted = 2;
  creep.looser = creep.creep = {share, sd};
  creep.per_stitch = 2_cm * (1 + share);
  creep.per_stitch_sd = 2_cm * sd;
  creep.per_repeat = 276_cm * share;
  creep.per_repeat_sd = 276_cm * sd;
  creep.fewer_stitches = 138 * (1 - 1 / (1 + share));
  creep.per_row = 100_cm * share;
  return creep;
}

std::string lines(const Creep& creep, const std::optional<OtherSize>& size = {}, Told told = Told::centimetres) {
  const State state = fold_of({"ball, ball: A", "row, row: 3"});
  return creep_lines({state, creep, 4_cm, size, "my wrap.yaml"}, told, 200);
}

}  // namespace

// By hand: 138 stitches less 138 / 1.02 are 2.7; 2 % of 100 cm are 2; 50 stitches less 50 / 1.02 are one. 1.645 *
// 0.006.
TEST_CASE("a creep larger than its doubt is told with what mends it") {
  CHECK(lines(creeping_by(0.02, 0.003)) ==
        "Tension   2.04 cm of yarn a stitch, give or take 0.01 cm; the gauge says 2 cm.\n"
        "Creep     colours come 2.5 stitches a repeat early, 2 cm a row; it shows from about 2 stitches a repeat on.\n"
        "To mend   work tighter by 2.5 stitches a repeat, or in a new piece one stitch less a row.\n"
        "Or record what your hand takes, to reckon on with it:\n"
        "          ballchange gauge 'my wrap.yaml' --yarn-per-stitch 2.04cm\n");
}

// 138 less 138 / 0.94 are 8.8 stitches; 50 less 50 / 0.94 are 3.2.
TEST_CASE("a tight hand is told to work looser, or with a thicker hook") {
  CHECK(lines(creeping_by(-0.06, 0.003), OtherSize{3.5, 3.75, false}) ==
        "Tension   1.88 cm of yarn a stitch, give or take 0.01 cm; the gauge says 2 cm.\n"
        "Creep     colours come 9 stitches a repeat late, 6 cm a row; it shows from about 2 stitches a repeat on.\n"
        "To mend   work looser by 9 stitches a repeat, or in a new piece 3 stitches more a row, or a 3.75 mm hook "
        "instead of 3.5.\n"
        "Or record what your hand takes, to reckon on with it:\n"
        "          ballchange gauge 'my wrap.yaml' --yarn-per-stitch 1.88cm\n");
}

// 0.7 % of 276 cm are 1.9 cm, less than half of the 4 that show.
TEST_CASE("what doesn't show yet needs no mending") {
  CHECK(lines(creeping_by(0.007, 0.003)) ==
        "Tension   2.01 cm of yarn a stitch, give or take 0.01 cm; the gauge says 2 cm.\n"
        "Creep     colours come 1 stitch a repeat early, 0.7 cm a row; it shows from about 2 stitches a repeat on.\n");
}

// 138 - 138 / 1.02 and 1.645 * 2 % of 138: 2.7 + 4.5 stitches.
TEST_CASE("a creep within its own doubt is not told") {
  CHECK(lines(creeping_by(0.02, 0.02)) ==
        "Tension   2.04 cm of yarn a stitch, give or take 0.07 cm; the gauge says 2 cm.\n"
        "Creep     none that can be told: at most 7.5 stitches a repeat either way.\n");
  Creep unknown = creeping_by(0.02, 0.003);
  unknown.known = false;
  CHECK(lines(unknown).empty());
  Creep other_ball = creeping_by(0.02, 0.02);
  other_ball.ball_seen = false;
  CHECK(lines(other_ball).find("not known of the ball in work: tell where its colours fall.") != std::string::npos);
}

TEST_CASE("lengths are told in inches where the project's are") {
  CHECK(
      lines(creeping_by(0.02, 0.003), {}, Told::inches) ==
      "Tension   0.8 in of yarn a stitch, give or take 0.01 in; the gauge says 0.79 in.\n"
      "Creep     colours come 2.5 stitches a repeat early, 0.8 in a row; it shows from about 2 stitches a repeat on.\n"
      "To mend   work tighter by 2.5 stitches a repeat, or in a new piece one stitch less a row.\n"
      "Or record what your hand takes, to reckon on with it:\n"
      "          ballchange gauge 'my wrap.yaml' --yarn-per-stitch 0.803in\n");
}

// 5 % of 276 cm are 14 cm.
TEST_CASE("a ball is told to differ where its repeat plainly does") {
  const State state = fold_of({"ball, ball: A", "row, row: 3"});
  Creep creep;
  creep.balls = {{"A", {0.05, 0.01}}, {"B", {0.01, 0.01}}, {"C", {-0.03, 0.01}}};
  CHECK(longer_balls_lines({state, creep, 4_cm, {}, "p.yaml"}, Told::centimetres, 200) ==
        "Differs   ball A: its repeat is about 5 % longer than the yarn's: colours come 14 cm (7 stitches) a repeat "
        "late.\n"
        "          ball C: its repeat is about 3 % shorter than the yarn's: colours come 8.5 cm (4 stitches) a repeat "
        "early.\n");
}
