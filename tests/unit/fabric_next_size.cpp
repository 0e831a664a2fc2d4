#include "fabric/next_size.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

// Expected values worked out by hand: between sizes along ln(width) over ln(mm), from one size w ~ mm^0.5.
namespace ballchange {
namespace {

Swatch square(double mm, double stitches, double rows) {
  return {mm, Counted{stitches * 2, 20_cm}, Counted{rows * 2, 20_cm}, {}};
}

WantedGauge wanted(double stitches, std::optional<double> rows = {}) {
  return {Length::cm(10 / stitches), rows ? std::optional(Length::cm(10 / *rows)) : std::nullopt};
}

NextSize next(const std::vector<Swatch>& swatches, const WantedGauge& want, Tool tool = Tool::hook) {
  return next_size(gauges(swatches), tool, want);
}

TEST_CASE("between two sizes the width is interpolated and snapped to a size that is sold") {
  // ln(22/20) / ln(22/18) = 0.474958 of the way from 4 to 5 mm: 4.4472 mm
  const NextSize found = next({square(4, 22, 24), square(5, 18, 20)}, wanted(20));
  CHECK(found.reach == Reach::try_next);
  CHECK(*found.stitches_at_mm == doctest::Approx(4.4472).epsilon(1e-4));
  CHECK(found.best->size.mm == 4.5);
  CHECK(found.best->size.name == "7");
  CHECK(found.best->stitch->in_10cm() == doctest::Approx(19.789).epsilon(1e-4));
}

TEST_CASE("from one size: a smaller hook for more stitches, by the usual slope") {
  // Common practice, no source: half a millimetre is about one stitch in 10 cm at 4 mm and 20 stitches.
  const NextSize found = next({square(4, 22, 24)}, wanted(24));
  CHECK(found.reach == Reach::try_next);
  CHECK(*found.stitches_at_mm == doctest::Approx(4 * 22.0 * 22 / 24 / 24).epsilon(1e-6));
  CHECK(found.best->size.mm == 3.25);
  CHECK(found.best->stitch->in_10cm() == doctest::Approx(22 * std::sqrt(4 / 3.25)).epsilon(1e-6));
  CHECK(next({square(4, 22, 24)}, wanted(20)).best->size.mm > 4);
}

TEST_CASE("a smaller hook gives more stitches, whatever noise the swatches have") {
  // Common practice, no source. The 4.5 mm swatch came out tighter than the 4 mm one.
  const std::vector<Swatch> noisy{square(4, 21, 24), square(4.5, 21.5, 24), square(6, 17, 20)};
  double before = 0;
  for (const double stitches : {16.0, 17.0, 18.0, 19.0, 20.0, 21.0, 22.0, 23.0}) {
    CAPTURE(stitches);
    const double mm = *next(noisy, wanted(stitches)).stitches_at_mm;
    if (before > 0) CHECK(mm < before);
    before = mm;
  }
}

TEST_CASE("a size that gives it within half a stitch is kept") {
  const NextSize found = next({square(4, 22, 24)}, wanted(22.4));
  CHECK(found.reach == Reach::keep);
  CHECK(found.best->size.mm == 4);
  // A size nobody sells is kept just as well.
  CHECK(next({square(4.1, 22, 24)}, wanted(22)).best->size.mm == 4.1);
}

TEST_CASE("a size whose own swatch gives what is wanted is kept, whatever the swatches of others say") {
  struct Case {
    std::vector<Swatch> swatches;
    double kept;
  };
  const std::vector<Case> cases{
      {{square(4, 22, 24), square(4.5, 24, 26)}, 4},  // the thicker hook made more stitches
      {{square(4, 22, 24), square(5, 26.7, 28)}, 4},
      {{square(4, 22, 24), square(4.5, 22, 24)}, 4},  // both give it
      {{square(3.5, 24, 26), square(4, 24.4, 26), square(5, 22.2, 24)}, 5},
  };
  for (const Case& c : cases) {
    const NextSize found = next(c.swatches, wanted(22));
    CHECK(found.reach == Reach::keep);
    CHECK(found.best->size.mm == c.kept);
    CHECK(std::abs(found.best->stitch->in_10cm() - 22) < 0.5);
  }
}

TEST_CASE("stitches and rows must be met by one size") {
  const std::vector<Swatch> one{square(4, 22, 24)};
  // 24/22 = 26.2/24: the same size for both
  const NextSize both = next(one, wanted(24, 26.2));
  CHECK(both.reach == Reach::try_next);
  CHECK(both.best->size.mm == 3.25);
  const NextSize odds = next(one, wanted(24, 21));
  CHECK(odds.reach == Reach::at_odds);
  CHECK(odds.for_stitches->size.mm == 3.25);
  CHECK(odds.for_rows->size.mm == 5.25);  // 4 (24/21)^2 = 5.22
}

TEST_CASE("what neither sizes nor spread allow can't be reached") {
  // 4 (22/30)^2 = 2.15 mm is too far from 4 mm for one yarn; of the others 2.75 comes nearest
  const NextSize far = next({square(4, 22, 24)}, wanted(30));
  CHECK(far.reach == Reach::out_of_yarn);
  CHECK(far.best->size.mm == 2.75);
  // 2.25 (30/34)^2 = 1.75 mm: no hook of the table is so thin
  const NextSize thin = next({square(2.25, 30, 32)}, wanted(34));
  CHECK(thin.reach == Reach::no_size);
  CHECK(thin.best->size.mm == 2.25);
  // needles are sold thinner
  CHECK(next({square(2.25, 30, 32)}, wanted(34), Tool::needle).reach == Reach::try_next);
}

TEST_CASE("hands differ by several sizes at one gauge") {
  // Common practice, no source: a tight and a loose hand, both to make 22 stitches in 10 cm.
  const NextSize loose = next({square(4, 20, 22)}, wanted(22));
  const NextSize tight = next({square(4, 24, 26)}, wanted(22));
  CHECK(loose.reach == Reach::try_next);
  CHECK(tight.reach == Reach::try_next);
  int between = 0;
  for (const ToolSize& size : sizes(Tool::hook)) {
    if (size.mm > loose.best->size.mm && size.mm <= tight.best->size.mm) ++between;
  }
  CHECK(between >= 3);
}

}  // namespace
}  // namespace ballchange
