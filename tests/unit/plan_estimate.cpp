#include "plan/estimate.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "base/normal.hpp"
#include "base/problem.hpp"
#include "base/random.hpp"
#include "plan/order.hpp"
#include "plan/supply.hpp"
#include "plan/worked_out.hpp"
#include "unit/rows.hpp"

namespace ballchange::plan {
namespace {

double number(const std::string& cell) { return std::stod(cell); }

// A work that makes exactly so many joins, whatever they cut off.
Work of_joins(int joins, Length period, Length tolerance, bool sparing) {
  Work work;
  work.period = period;
  work.tolerance = tolerance;
  work.sparing = sparing;
  work.ball = period * 10'000;
  work.ball_plus_minus = 0;
  work.needed = work.ball * (joins + 0.5);
  return work;
}

Work usual() {
  Work work;
  work.needed = 150'000_cm;
  work.period = 276_cm;
  work.allowance = 8_cm;
  work.tolerance = Length::cm(3.7);
  work.ball = 12'500_cm;
  return work;
}

TEST_CASE("without tolerance the waste of n joins is the sum of n uniform lengths") {
  // irwin_hall.csv: Irwin 1927, Hall 1927, Biometrika 19.
  for (const auto& row : rows_of("irwin_hall.csv")) {
    const int joins = std::stoi(row[0]);
    CAPTURE(joins);
    const WayEstimate told = estimate(of_joins(joins, 300_cm, 0_cm, false), Way::as_they_come);
    REQUIRE(told.exact);
    CHECK(told.balls.p50 == joins + 1);
    CHECK(told.waste.mean / 300_cm == doctest::Approx(number(row[1])).epsilon(1e-9));
    CHECK(std::abs(told.waste.p50 / 300_cm - number(row[3])) < 0.002);
    CHECK(std::abs(told.waste.p90 / 300_cm - number(row[4])) < 0.002);
    CHECK(std::abs(told.waste.p95 / 300_cm - number(row[5])) < 0.002);
  }
}

TEST_CASE("a tolerance used sparingly saves what it should at a join") {
  // join_waste.csv: P(0) = 2t/R, mean (R - 2t)^2 / 2R.
  for (const auto& row : rows_of("join_waste.csv")) {
    const Length period = Length::cm(number(row[0]));
    const Length tolerance = Length::cm(number(row[1]));
    CAPTURE(tolerance.cm());
    const Work work = of_joins(1, period, tolerance, true);
    CHECK(trim_spread(work).nothing == doctest::Approx(number(row[2])).epsilon(1e-9));
    const WayEstimate told = estimate(work, Way::as_they_come);
    CHECK(told.waste.mean.cm() == doctest::Approx(number(row[3])).epsilon(1e-6));
    const WayEstimate simulated = simulate_as_they_come(work, {1, 1, {}, 100'000});
    const double error = number(row[5]) / std::sqrt(100'000.0);
    CHECK(std::abs(simulated.waste.mean.cm() - number(row[3])) <= 5 * error);
  }
}

TEST_CASE("as a rule a join skips within the tolerance and cuts a mean of (R - t)^2 / 2R") {
  const WayEstimate told = estimate(of_joins(4, 276_cm, 20_cm, false), Way::as_they_come);
  CHECK(told.waste.mean.cm() == doctest::Approx(4 * 256.0 * 256.0 / (2 * 276.0)).epsilon(1e-6));
}

TEST_CASE("the best of k independent fresh balls cuts a mean of R / (k + 1)") {
  // The mean of the least of k uniform lengths.
  constexpr int kTimes = 4000;
  for (const int k : {1, 2, 3, 5, 9}) {
    const unsigned seed = 20'261'125;
    Random random(seed);
    CAPTURE(seed);
    CAPTURE(k);
    double sum = 0;
    for (int time = 0; time < kTimes; ++time) {
      Hand hand;
      hand.period = 30'000;
      hand.begin = Begin{static_cast<Tenths>(random.below(30'000)), 0, 0};
      for (int ball = 0; ball < k; ++ball) {
        hand.balls.push_back({static_cast<Tenths>(random.below(30'000)), static_cast<Tenths>(random.below(30'000)), 0});
      }
      sum += static_cast<double>(nearest_next(hand).first->discard) / 30'000;
    }
    const double mean = 1.0 / (k + 1);
    const double error = std::sqrt(k / ((k + 1.0) * (k + 1.0) * (k + 2.0)) / kTimes);
    CHECK(std::abs(sum / kTimes - mean) < 5 * error);
  }
}

TEST_CASE("what is simulated and what is worked out agree") {
  for (const double needed : {20'000.0, 74'500.0, 149'000.0, 400'000.0}) {
    for (const double tolerance : {0.0, 3.7, 40.0}) {
      CAPTURE(needed);
      CAPTURE(tolerance);
      Work work = usual();
      work.needed = Length::cm(needed);
      work.tolerance = Length::cm(tolerance);
      const WayEstimate exact = estimate(work, Way::as_they_come);
      const WayEstimate simulated = simulate_as_they_come(work, {7, 2, {}, 100'000});
      REQUIRE(exact.exact);
      CHECK_FALSE(simulated.exact);
      CHECK(simulated.waste.mean.cm() == doctest::Approx(exact.waste.mean.cm()).epsilon(0.01));
      CHECK(simulated.waste.p90.cm() == doctest::Approx(exact.waste.p90.cm()).epsilon(0.01));
      CHECK(std::abs(simulated.balls.mean - exact.balls.mean) < 0.01);
      for (const Enough& enough : simulated.enough) {
        for (const Enough& other : exact.enough) {
          if (other.balls == enough.balls) CHECK(std::abs(other.chance - enough.chance) < 0.01);
        }
      }
    }
  }
}

// The most yarn that so many balls are promised to hold with that chance, by halving.
Length needed_for(Work work, int balls, double chance) {
  Length low, high = work.ball * balls;
  for (int k = 0; k < 16; ++k) {  // to a few centimetres
    work.needed = (low + high) / 2;
    (chance_of_enough(work, balls, {1, 2, {}, 40'000}) >= chance ? low : high) = work.needed;
  }
  return low;
}

TEST_CASE("of 10,000 works promised 95 in a hundred 94 to 96 have enough") {
  // The works need just as much as is promised, and each is worked here ball by ball, with a plain sum of what is held
  // and what is cut off.
  const unsigned seed = 42;
  Random random(seed);
  CAPTURE(seed);
  constexpr int kWorks = 10'000, kKinds = 20;
  int too_little = 0;
  for (int kind = 0; kind < kKinds; ++kind) {
    Work work = usual();
    work.knots = kind % 2 == 0 ? 0 : 0.4;
    const int balls = 3 + kind;
    const Length needed = needed_for(work, balls, 0.95);
    for (int k = 0; k < kWorks / kKinds; ++k) {
      double yarn = 0;
      for (int ball = 0; ball < balls; ++ball) {
        yarn += 12'500 * (1 + 0.02 * random.normal());
        int joins = ball > 0 ? 1 : 0;
        for (double product = random.uniform(); product > std::exp(-work.knots); product *= random.uniform()) ++joins;
        for (; joins > 0; --joins) {
          const double u = 276 * random.uniform();
          yarn -= 8 + (u < 276 - 3.7 ? u : 0);
        }
      }
      if (yarn < needed.cm()) ++too_little;
    }
  }
  CHECK(too_little <= kWorks * 6 / 100);
  CHECK(too_little >= kWorks * 4 / 100);
}

TEST_CASE("reading starts saves yarn, reading both ends saves more") {
  const Work work = usual();
  const WayEstimate any = estimate(work, Way::as_they_come);
  const WayEstimate best = estimate(work, Way::best_of_hand);
  const WayEstimate read = estimate(work, Way::ends_read);
  CHECK(best.waste.mean < any.waste.mean * 0.6);
  CHECK(read.waste.mean < best.waste.mean * 0.9);
  CHECK(read.balls.mean < any.balls.mean);
}

TEST_CASE("ends that were read count as they were read") {
  // Two balls that follow each other, and a third that costs all but a repeat.
  Work work = usual();
  work.needed = 30'000_cm;
  work.tolerance = 0_cm;
  work.on_hand = {{std::nullopt, std::nullopt, 108_cm}, {std::nullopt, 100_cm, 58_cm}, {std::nullopt, 51_cm, {}}};
  const WayEstimate told = estimate(work, Way::as_they_come, {1, 1, {}, 1000});
  CHECK_FALSE(told.exact);
  CHECK(told.waste.p50.cm() == doctest::Approx(8 + 8 + 275).epsilon(1e-9));
  CHECK(told.waste.p95.cm() == doctest::Approx(8 + 8 + 275).epsilon(1e-9));
}

TEST_CASE("the same seed gives the same answer for any number of threads") {
  Work work = usual();
  work.knots = 0.3;
  for (const Way way : {Way::as_they_come, Way::best_of_hand, Way::ends_read}) {
    const WayEstimate one = estimate(work, way, {5, 1, {}, 20'000});
    const WayEstimate four = estimate(work, way, {5, 4, {}, 20'000});
    const WayEstimate other = estimate(work, way, {6, 1, {}, 20'000});
    CHECK(one.waste.mean == four.waste.mean);
    CHECK(one.waste.p90 == four.waste.p90);
    CHECK(one.balls.mean == four.balls.mean);
    CHECK(one.waste.mean != other.waste.mean);
  }
}

TEST_CASE("each knot costs one join more") {
  Work work = of_joins(6, 300_cm, 0_cm, false);
  work.allowance = 10_cm;
  work.knots = 0.5;
  // Knots lie evenly along the yarn that is used: 6.5 balls of it.
  const double mean = (6 + 6.5 * 0.5) * 160;
  CHECK(estimate(work, Way::as_they_come).waste.mean.cm() == doctest::Approx(mean).epsilon(0.01));
}

TEST_CASE("knots in the last ball count only as far as it is used, however the balls are chosen") {
  Work work = usual();
  work.needed = 28'750_cm;  // 2.3 balls
  for (const Way way : {Way::as_they_come, Way::best_of_hand, Way::ends_read}) {
    CAPTURE(way);
    const Length without = estimate(work, way).waste.mean;
    Work knotty = work;
    knotty.knots = 1;
    const Length with = estimate(knotty, way).waste.mean;
    // A knot costs a join of unknown ends: 8 cm and (276 - 3.7)^2 / 552.
    const double mean = (work.needed + with) / work.ball * (8 + 272.3 * 272.3 / 552);
    CHECK((with - without).cm() == doctest::Approx(mean).epsilon(0.08));
  }
}

TEST_CASE("where one ball is nearly always enough, its knots cost the same whichever way balls are taken") {
  for (const Length needed : {11'000_cm, 12'400_cm}) {
    CAPTURE(needed.cm());
    Work work = usual();
    work.needed = needed;
    work.knots = 3;  // many stretches are shorter than what would be cut off them
    const double as_they_come = estimate(work, Way::as_they_come).waste.mean.cm();
    CHECK(estimate(work, Way::best_of_hand).waste.mean.cm() == doctest::Approx(as_they_come).epsilon(0.015));
  }
}

TEST_CASE("a knot costs no more than the yarn behind it, however many balls are used up") {
  // By a simulation apart from this program, ball by ball and stretch by stretch: 9.60 m and 13.13 m, give or take 1 %.
  Work work = usual();
  work.knots = 5;
  work.needed = 14'100_cm;
  CHECK(estimate(work, Way::as_they_come).waste.mean.cm() == doctest::Approx(960).epsilon(0.01));
  work.needed = 20'000_cm;
  CHECK(estimate(work, Way::as_they_come).waste.mean.cm() == doctest::Approx(1313).epsilon(0.01));
}

TEST_CASE("with more balls on hand than it takes, the reading ways choose among all of them") {
  Work work = usual();
  work.needed = 31'800_cm;
  work.period = 190_cm;
  work.allowance = 10_cm;
  work.tolerance = Length::cm(3.6);
  work.ball = 30'000_cm;
  // e - s - m mod 190: A to B 177, to C 57, to D 131; C to A 12; all else 42 and more.
  work.on_hand = {{30'300_cm, 44_cm, 155_cm},
                  {29'700_cm, 158_cm, 15_cm},
                  {std::nullopt, 88_cm, 66_cm},
                  {std::nullopt, 14_cm, std::nullopt}};
  struct Least {
    Way way;
    double lost;  // cm
  };
  const Least least[] = {{Way::as_they_come, 177 + 10}, {Way::best_of_hand, 57 + 10}, {Way::ends_read, 12 + 10}};
  for (const Least& each : least) {
    CAPTURE(each.way);
    const WayEstimate told = estimate(work, each.way);
    CHECK(told.waste.p50.cm() == doctest::Approx(each.lost).epsilon(1e-6));
    CHECK(told.waste.p95.cm() == doctest::Approx(each.lost).epsilon(1e-6));
    CHECK(told.balls.p95 == 2);
    CHECK(told.enough.back().chance == doctest::Approx(1).epsilon(1e-6));
  }
}

TEST_CASE("with more balls on hand than it may take, none is bought while they do") {
  // Two hold 240 and 250 m between them with their join: the third is needed for the larger work, and a fourth never.
  Work work = usual();
  work.on_hand = {{12'000_cm, 0_cm, 100_cm}, {12'500_cm, 92_cm, 100_cm}, {12'500_cm, 92_cm, 100_cm}};
  for (const Way way : {Way::best_of_hand, Way::ends_read}) {
    CAPTURE(way);
    work.needed = 23'000_cm;
    CHECK(estimate(work, way).balls.p95 == 2);
    work.needed = 35'000_cm;
    CHECK(estimate(work, way).balls.p95 == 3);
    work.needed = 38'000_cm;
    CHECK(estimate(work, way).balls.p50 == 4);
  }
}

TEST_CASE("where a repeat is longer than a ball, what is left of a ball may be nothing") {
  Work work = usual();
  work.period = 20'000_cm;
  work.needed = 60'000_cm;
  CHECK_FALSE(can_be_worked_out(work));
  const WayEstimate told = estimate(work, Way::as_they_come, {1, 1, {}, 5000});
  // By length alone 600 m are this many balls of 125 m; every join then cuts off up to what a ball holds.
  CHECK(told.balls.p50 > std::ceil(work.needed / work.ball));
  CHECK(told.balls.p95 > told.balls.p50);
}

TEST_CASE("shifts kept from the start cost a little more, since they leave less room to skip") {
  Work work = usual();
  work.tolerance = 30_cm;
  work.keep_from_start = true;
  const WayEstimate kept = estimate(work, Way::as_they_come, {1, 1, {}, 20'000});
  work.keep_from_start = false;
  const WayEstimate each = estimate(work, Way::as_they_come);
  CHECK_FALSE(kept.exact);
  CHECK(kept.waste.mean > each.waste.mean);
  CHECK(kept.waste.mean < each.waste.mean * 1.2);
}

TEST_CASE("the usual spread of a ball lies well within what the law lets a package be short") {
  // Directive 76/211/EEC, Annex I 2.4: 9 % of 5 to 50 g, 4.5 % of 100 to 200 g, none short by twice that.
  CHECK(normal_cdf(-0.09 / Work().ball_plus_minus) < 1e-4);
  CHECK(normal_cdf(-0.045 / Work().ball_plus_minus) < 0.025);
  CHECK(normal_cdf(-2 * 0.045 / Work().ball_plus_minus) < 1e-4);
}

TEST_CASE("more balls than anybody buys are refused") {
  Work work = usual();
  work.needed = work.ball * 2000;
  CHECK_THROWS_WITH_AS(
      (void)estimate(work, Way::as_they_come),
      "that takes more than 1000 balls, the most that is reckoned with; look again at the yarn needed and at the "
      "length of a ball, or estimate a part of the work at a time",
      Problem);
}

}  // namespace
}  // namespace ballchange::plan
