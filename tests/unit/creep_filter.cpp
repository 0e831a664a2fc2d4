#include <doctest/doctest.h>

#include "creep/filter.hpp"

using namespace ballchange;
using namespace ballchange::creeping;

namespace {

constexpr double kTiny = 1e-9;

}  // namespace

// By hand: x is known to 0.03 * 100 = 3 cm, the change is seen 3 cm off, to 1 cm. 0.0009 * 100 / (9 + 1) = 0.009 of the
// 3 cm go to t, 9 / 10 of them to x.
TEST_CASE("a change that is seen early makes the hand looser") {
  Filter filter({0.03, 0, 0});
  filter.work(100_cm, 110_cm);
  CHECK(filter.off_variance() == doctest::Approx(9).epsilon(kTiny));
  filter.see(3_cm, 1);
  CHECK(filter.looser().mean == doctest::Approx(0.027).epsilon(kTiny));
  CHECK(filter.looser().sd == doctest::Approx(0.00948683298).epsilon(1e-8));  // 0.0009 - 0.09^2 / 10
  CHECK(filter.off().cm() == doctest::Approx(2.7).epsilon(kTiny));
  CHECK(filter.off_variance() == doctest::Approx(0.9).epsilon(kTiny));
}

// By hand: t and b pull 3 and 4 cm, the counting nothing. Of 10 cm 9/25 are laid to the hand, 16/25 to the ball.
TEST_CASE("what is seen in one ball is shared between hand and ball, and the creep is all of it") {
  Filter filter({0.03, 0.04, 0});
  filter.work(100_cm, 100_cm);
  filter.see(10_cm, 0);
  CHECK(filter.looser().mean == doctest::Approx(0.036).epsilon(kTiny));
  CHECK(filter.longer().mean == doctest::Approx(-0.064).epsilon(kTiny));
  CHECK(filter.creep().mean == doctest::Approx(0.1).epsilon(kTiny));
  CHECK(filter.creep().sd < 1e-6);
}

TEST_CASE("another ball begins its own repeat and keeps the hand") {
  Filter filter({0.03, 0.04, 0});
  filter.work(100_cm, 100_cm);
  filter.see(10_cm, 0);
  filter.begin_ball();
  CHECK(filter.looser().mean == doctest::Approx(0.036).epsilon(kTiny));
  CHECK(filter.longer().mean == 0);
  CHECK(filter.longer().sd == doctest::Approx(0.04).epsilon(kTiny));
}

TEST_CASE("a gauge that says what was seen keeps it, in its own terms") {
  const auto seen = [] {
    Filter filter({0.03, 0, 0});
    filter.settle(Length(), 0.01);
    filter.work(1000_cm, 1000_cm);
    filter.see(-30_cm, 0.01);
    return filter;
  };
  const double before = seen().looser().mean;
  CHECK(before == doctest::Approx(-0.03).epsilon(0.01));
  Filter told = seen();
  told.tell_gauge(1 / 0.975);
  CHECK(told.looser().mean == doctest::Approx((1 + before) / 0.975 - 1));
  CHECK(told.looser().sd == doctest::Approx(seen().looser().sd / 0.975));
  // Away from what was seen, and far beyond it.
  for (const double by : {1 / 1.02, 1 / 0.9}) {
    Filter other = seen();
    other.tell_gauge(by);
    CHECK(other.looser().mean == 0);
    CHECK(other.looser().sd == doctest::Approx(0.03));
  }
}

TEST_CASE("another gauge is another hand, and the colours stay where they are") {
  Filter filter({0.03, 0, 0});
  filter.work(100_cm, 100_cm);
  filter.see(3_cm, 1);
  filter.begin_gauge();
  CHECK(filter.looser().mean == 0);
  CHECK(filter.looser().sd == doctest::Approx(0.03).epsilon(kTiny));
  CHECK(filter.off().cm() == doctest::Approx(2.7).epsilon(kTiny));
}

TEST_CASE("where nothing was known of the place the hand learns nothing") {
  Filter filter({0.03, 0.02, 0});
  filter.work(1000_cm, 1000_cm);
  filter.settle(40_cm, 1);
  CHECK(filter.looser().mean == 0);
  CHECK(filter.looser().sd == doctest::Approx(0.03).epsilon(kTiny));
  CHECK(filter.off().cm() == 40);
  CHECK(filter.off_variance() == 1);
}
