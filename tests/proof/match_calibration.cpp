#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <future>

#include "slow/calibration.hpp"
#include "slow/continuation.hpp"

// The matcher's promises, each as a statistic over strands drawn from the reference model.
namespace ballchange::slow {
namespace {

TEST_CASE("settled places are right as often as they say, and intervals hold nine times in ten") {
  const Tally tally = calibrate(101, 20000);
  MESSAGE("settled ", tally.settled_share(), ", right ", tally.right_share(), ", said ", tally.said_share(),
          ", interval holds ", tally.held_share());
  CHECK(tally.settled_share() > 0.75);
  CHECK(std::abs(tally.right_share() - tally.said_share()) <= 0.01);
  CHECK(tally.held_share() >= 0.88);
  CHECK(tally.held_share() <= 0.92);
  CHECK(tally.no_fit <= 10);
}

TEST_CASE("as many readings settle as the slow matcher settles") {
  const Shares shares = settled_shares(102, 3000);
  CHECK(std::abs(shares.fast - shares.slow) <= 0.01);
}

// How much further is found by simulation, so this takes a while: halved between two threads.
TEST_CASE("after measuring as much further as asked four in five settle") {
  auto other_half = std::async(std::launch::async, [] { return measure_more(203, 600); });
  MoreTally tally = measure_more(103, 600);
  const MoreTally other = other_half.get();
  tally.unsettled += other.unsettled;
  tally.asked += other.asked;
  tally.settled += other.settled;
  MESSAGE("unsettled ", tally.unsettled, ", told how much further ", tally.asked, ", settled after it ", tally.settled);
  CHECK(tally.asked > tally.unsettled / 2);
  CHECK(static_cast<double>(tally.settled) >= 0.77 * static_cast<double>(tally.asked));
}

TEST_CASE("what is asked for is at most half as much again as the least that would do") {
  auto other_half = std::async(std::launch::async, [] { return least_and_asked(204, 40); });
  std::vector<MoreAsked> asked = least_and_asked(104, 40);
  for (const MoreAsked& a : other_half.get()) asked.push_back(a);
  std::vector<double> ratios;
  double settled = 0;
  for (const MoreAsked& a : asked) {
    settled += a.settled_after;
    if (a.least) ratios.push_back(a.asked / *a.least);
  }
  REQUIRE(ratios.size() > asked.size() / 2);
  std::sort(ratios.begin(), ratios.end());
  const double median = ratios[ratios.size() / 2];
  MESSAGE("asked over least: median ", median, ", nine in ten below ", ratios[ratios.size() * 9 / 10],
          "; settled after it ", settled / static_cast<double>(asked.size()));
  CHECK(median <= 1.5);
  CHECK(settled >= 0.77 * static_cast<double>(asked.size()));
}

}  // namespace
}  // namespace ballchange::slow
