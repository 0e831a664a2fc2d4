#include <doctest/doctest.h>

#include <cmath>

#include "slow/calibration.hpp"

// The matcher's promises as statistics, on fewer strands than the proof takes and so with wider limits.
namespace ballchange::slow {
namespace {

TEST_CASE("a settled place is right as often as it says, and its interval holds nine times in ten") {
  const Tally tally = calibrate(11, 2000);
  CHECK(tally.settled_share() > 0.75);
  CHECK(std::abs(tally.right_share() - tally.said_share()) <= 0.01);
  CHECK(std::abs(tally.held_share() - 0.90) <= 0.025);
  CHECK(tally.no_fit <= 2);
}

TEST_CASE("as many readings settle as the slow matcher settles") {
  const Shares shares = settled_shares(12, 200);
  CHECK(std::abs(shares.fast - shares.slow) <= 0.01);
}

TEST_CASE("after measuring as much further as asked most readings settle") {
  const MoreTally tally = measure_more(13, 30);
  CHECK(tally.asked >= 20);
  CHECK(tally.settled * 3 >= tally.asked * 2);
}

}  // namespace
}  // namespace ballchange::slow
