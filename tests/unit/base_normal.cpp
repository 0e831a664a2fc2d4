#include "base/normal.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace ballchange {
namespace {

// Judge: Boost.Math 1.74, relative error of its distributions below 1e-14 in this range.
double relative(double got, double wanted) { return std::abs(got - wanted) / std::abs(wanted); }

TEST_CASE("the normal distribution agrees with Boost.Math, far tails included") {
  const boost::math::normal judge;
  for (int i = -370; i <= 370; ++i) {
    const double z = i / 10.0;
    CAPTURE(z);
    CHECK(relative(normal_cdf(z), cdf(judge, z)) < 1e-13 * std::max(1.0, z * z));
  }
}

TEST_CASE("the normal quantile agrees with Boost.Math from 1e-300 to 1 - 1e-15") {
  const boost::math::normal judge;
  for (int exponent = 1; exponent <= 300; ++exponent) {
    const double p = std::pow(10.0, -exponent);
    CAPTURE(p);
    CHECK(relative(normal_quantile(p), quantile(judge, p)) < 1e-12);
    if (exponent <= 15) CHECK(relative(normal_quantile(1 - p), quantile(judge, 1 - p)) < 1e-12);
  }
  for (int i = 1; i < 1000; ++i) {
    const double p = i / 1000.0;
    CAPTURE(p);
    CHECK(std::abs(normal_quantile(p) - quantile(judge, p)) < 1e-13);
  }
}

TEST_CASE("the quantile undoes the distribution") {
  CHECK(normal_quantile(0.5) == 0);
  for (int i = 1; i < 200; ++i) {
    const double p = i / 200.0;
    CAPTURE(p);
    CHECK(std::abs(normal_cdf(normal_quantile(p)) - p) < 1e-15);
  }
}

TEST_CASE("the chi-square tail agrees with Boost.Math") {
  for (const double k : {1.0, 2.0, 3.0, 4.0, 7.0, 10.0, 25.0, 100.0, 1000.0, 3000.0}) {
    const boost::math::chi_squared judge(k);
    for (const double share : {1e-6, 1e-3, 0.1, 0.5, 0.9, 0.99, 1.0, 1.01, 1.1, 1.5, 2.0, 5.0, 20.0}) {
      const double x = share * k;
      const double wanted = cdf(complement(judge, x));
      CAPTURE(k);
      CAPTURE(x);
      if (wanted > 1e-290) CHECK(relative(chi_square_tail(x, k), wanted) < 1e-10);
    }
  }
}

TEST_CASE("a chi-square is never below nothing, and never beyond the moon") {
  CHECK(chi_square_tail(0, 3) == 1);
  CHECK(chi_square_tail(1e6, 3) < 1e-300);
  CHECK(chi_square_tail(1e6, 3) >= 0);
}

}  // namespace
}  // namespace ballchange
