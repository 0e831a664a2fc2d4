#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "base/random.hpp"
#include "fabric/work.hpp"

// Where a length of yarn from the hook ends, against a walk that works one stitch after the other.
namespace ballchange {
namespace {

struct Stepped {
  int row = 1, stitch = 0;
  bool turning = false;
};

// Stitches that are at least half done when the yarn ends count as done.
Stepped stitch_by_stitch(const Fabric& fabric, RowStitch hook, double yarn) {
  const double per_stitch = fabric.yarn_per_stitch->cm();
  Stepped at{hook.row, hook.stitch};
  for (;;) {
    if (at.stitch == *fabric.stitches) {
      if (yarn < fabric.yarn_per_turn.cm()) {
        at.turning = true;
        return at;
      }
      yarn -= fabric.yarn_per_turn.cm();
      ++at.row;
      at.stitch = 0;
    }
    if (yarn < per_stitch / 2) return at;
    yarn -= per_stitch;
    ++at.stitch;
  }
}

// Stitches of the whole piece, so that the end of one row and the beginning of the next lie side by side.
long counted(const Fabric& fabric, RowStitch at) { return static_cast<long>(at.row) * *fabric.stitches + at.stitch; }

TEST_CASE("a landing is where working stitch by stitch ends, within a stitch") {
  constexpr std::uint64_t seed = 51;
  Random random(seed);
  for (int n = 0; n < 3000; ++n) {
    Fabric fabric;
    fabric.yarn_per_stitch = Length::cm(0.6 + 4 * random.uniform());
    fabric.working = n % 3 == 0 ? Working::rounds : n % 3 == 1 ? Working::rows : Working::turned_rounds;
    if (fabric.working != Working::rounds) fabric.yarn_per_turn = Length::cm(3 * random.uniform());
    fabric.stitches = 3 + static_cast<int>(random.below(200));
    const RowStitch hook{1 + static_cast<int>(random.below(300)),
                         static_cast<int>(random.below(static_cast<std::uint64_t>(*fabric.stitches) + 1))};
    const double yarn = 400 * random.uniform();
    CAPTURE(seed);
    CAPTURE(n);
    CAPTURE(yarn);
    CAPTURE(hook.row);
    CAPTURE(hook.stitch);
    const RowStitch landed = landing(fabric, hook, Length::cm(yarn));
    const Stepped walked = stitch_by_stitch(fabric, hook, yarn);
    CHECK(std::abs(counted(fabric, landed) - counted(fabric, {walked.row, walked.stitch})) <= 1);
    CHECK(landed.stitch >= 1);
    CHECK(landed.stitch <= *fabric.stitches);
  }
}

TEST_CASE("worked landings") {
  struct Row {
    std::string what;
    Working working;
    double per_stitch, per_turn;
    std::optional<int> stitches;
    RowStitch hook;
    double yarn;
    RowStitch landed;
  };
  const Row rows[] = {
      {"in the same row", Working::rows, 2, 1, 60, {10, 20}, 30, {10, 35}},
      {"over one turn", Working::rows, 2, 1, 60, {10, 50}, 41, {11, 10}},
      {"over two turns", Working::rows, 2, 1, 60, {10, 50}, 162, {12, 10}},
      {"within the turn", Working::rows, 2, 1, 60, {10, 50}, 20.5, {10, 60}},
      {"a finished row goes on in the next", Working::rows, 2, 1, 60, {10, 60}, 21, {11, 10}},
      {"no yarn at all", Working::rows, 2, 1, 60, {10, 20}, 0, {10, 20}},
      {"a round has no turn", Working::rounds, 2, 0, 60, {10, 50}, 40, {11, 10}},
      {"a turned round has", Working::turned_rounds, 2, 4, 60, {10, 50}, 44, {11, 10}},
      {"stitches of a row not known", Working::rows, 2, 1, {}, {10, 50}, 400, {10, 250}},
      {"more rows than can be counted", Working::rounds, 0.01, 0, 1, {10, 0}, 1e10, {1'000'000'010, 1}},
      {"more stitches than can be counted", Working::rows, 0.01, 1, {}, {10, 50}, 1e10, {10, 1'000'000'050}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const Fabric fabric{row.working, Length::cm(row.per_stitch), Length::cm(row.per_turn), row.stitches};
    const RowStitch landed = landing(fabric, row.hook, Length::cm(row.yarn));
    CHECK(landed.row == row.landed.row);
    CHECK(landed.stitch == row.landed.stitch);
  }
}

// By hand, in cm: rows of 10 stitches of 2 and a turn of 6, so 26.
TEST_CASE("a turn makes no stitch") {
  Fabric fabric;
  fabric.yarn_per_stitch = 2_cm;
  fabric.yarn_per_turn = 6_cm;
  fabric.stitches = 10;
  struct Row {
    const char* what;
    double from, yarn, stitches;
  };
  for (const Row& row : {
           Row{"within a row", 4, 10, 5},
           Row{"to its last stitch", 4, 16, 8},
           Row{"over a turn", 4, 26, 10},
           Row{"over two", 14, 42, 15},
           Row{"from before the row", -16, 20, 7},
           Row{"from within a turn", 23, 7, 2},
       }) {
    CAPTURE(row.what);
    CHECK(stitches_made(fabric, Length::cm(row.from), Length::cm(row.yarn)) == doctest::Approx(row.stitches));
    CHECK(yarn_made(fabric, Length::cm(row.from), row.stitches).cm() == doctest::Approx(row.yarn));
  }
}

}  // namespace
}  // namespace ballchange
