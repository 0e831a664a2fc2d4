#include "slow/agreement.hpp"

// As the quick comparison of both matchers, on many more readings.
namespace ballchange::slow {
namespace {

TEST_CASE("both matchers agree on thousands of random small readings") {
  constexpr std::uint64_t cases = 12000;
  CHECK(agree_on_random_readings(5000000, cases) > cases * 3 / 4);
}

TEST_CASE("both matchers agree on every reading of up to three entries of a small yarn") {
  CHECK(agree_on_every_reading(3) > 4000);  // of 7,008
}

}  // namespace
}  // namespace ballchange::slow
