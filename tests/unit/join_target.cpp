#include "join/target.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "base/random.hpp"

// How much comes off two given ends. The judge tries every trim, one step after the other, in whole numbers.
namespace ballchange::joining {
namespace {

struct Steps {
  long period = 0, between = 0, allowance = 0, tolerance = 0, out_of_step = 0;
  long new_place = 0;

  // shift = p_s - p_e + trims + m, nearest to 0
  [[nodiscard]] long shift_after(long trims) const {
    long shift = (trims + allowance - between) % period;
    if (shift < 0) shift += period;
    return 2 * shift > period ? shift - period : shift;
  }
  [[nodiscard]] bool within_both(long shift) const {
    return std::abs(shift) <= tolerance && std::abs(out_of_step + shift) <= tolerance;
  }
};

struct Tried {
  long trims = 0, shift = 0;
};

Tried by_the_rule(const Steps& s) {
  if (s.shift_after(0) >= 0 && s.within_both(s.shift_after(0))) return {0, s.shift_after(0)};
  long wanted = -s.out_of_step;
  if (wanted > s.tolerance) wanted = s.tolerance;
  if (wanted < -s.tolerance) wanted = -s.tolerance;
  for (long trims = 0; trims < s.period; ++trims) {
    if (s.shift_after(trims) == wanted) return {trims, wanted};
  }
  FAIL("no trim gives the wanted shift");
  return {};
}

Tried sparingly(const Steps& s) {
  for (long trims = 0; trims < s.period; ++trims) {
    if (s.within_both(s.shift_after(trims))) return {trims, s.shift_after(trims)};
  }
  return by_the_rule(s);  // further out of step than one join may make good
}

Steps random_steps(Random& random, bool from_the_start) {
  Steps s;
  s.period = 40 + static_cast<long>(random.below(260));
  const auto period = static_cast<std::uint64_t>(s.period);
  s.between = static_cast<long>(random.below(period));
  s.new_place = static_cast<long>(random.below(period));
  s.allowance = static_cast<long>(random.below(60));
  s.tolerance = static_cast<long>(random.below(18));
  if (from_the_start) s.out_of_step = static_cast<long>(random.below(80)) - 40;
  // Every second one right at an edge: no shift at all, or just as much as is allowed.
  const long edges[] = {0, s.tolerance, -s.tolerance, s.tolerance - s.out_of_step, -s.tolerance - s.out_of_step};
  const std::uint64_t edge = random.below(10);
  if (edge < 5) s.between = ((s.allowance - edges[edge]) % s.period + s.period) % s.period;
  return s;
}

Target asked(const Steps& s, double step, bool sparing) {
  const auto length = [&](long n) { return Length::cm(step * static_cast<double>(n)); };
  // As a check comes by it: from two places, with what rounding leaves.
  const Length between = wrap(length((s.new_place + s.between) % s.period) - length(s.new_place), length(s.period));
  return least_trims({length(s.period), between}, length(s.allowance),
                     {length(s.tolerance), length(s.out_of_step), sparing});
}

TEST_CASE("the least trims are those that trying every trim finds") {
  constexpr std::uint64_t seed = 41;
  Random random(seed);
  // A step that is exact in binary, and two that are not: rounding must never cost a repeat.
  for (const double step : {0.25, 0.1, 0.7}) {
    for (int n = 0; n < 6000; ++n) {
      const bool from_the_start = n % 2 == 1;
      const bool sparing = n % 4 >= 2;
      const Steps s = random_steps(random, from_the_start);
      CAPTURE(seed);
      CAPTURE(n);
      CAPTURE(step);
      CAPTURE(s.period);
      CAPTURE(s.between);
      CAPTURE(s.allowance);
      CAPTURE(s.tolerance);
      CAPTURE(s.out_of_step);
      CAPTURE(sparing);
      const Tried expected = sparing ? sparingly(s) : by_the_rule(s);
      const Target target = asked(s, step, sparing);
      REQUIRE(std::abs(target.trims.cm() - step * static_cast<double>(expected.trims)) < 1e-6);
      REQUIRE(std::abs(target.shift.cm() - step * static_cast<double>(expected.shift)) < 1e-6);
    }
  }
}

// R 276, t 2: values worked by hand.
TEST_CASE("at the edges of the tolerance") {
  struct Row {
    std::string what;
    double between, allowance, out_of_step;
    bool sparing;
    double trims, shift;
  };
  const Row rows[] = {
      {"in step already", 8, 8, 0, false, 0, 0},
      {"in step already, sparing", 8, 8, 0, true, 0, 0},
      {"a skip within the tolerance", 6.5, 8, 0, false, 0, 1.5},
      {"a skip of the whole tolerance", 6, 8, 0, false, 0, 2},
      {"a skip just beyond it", 5.9, 8, 0, false, 273.9, 0},
      {"the same, sparing: a repeat instead", 5.9, 8, 0, true, 271.9, -2},
      {"a repeat within the tolerance is cut", 9.5, 8, 0, false, 1.5, 0},
      {"a repeat within the tolerance, sparing", 9.5, 8, 0, true, 0, -1.5},
      {"a repeat beyond it, sparing", 13, 8, 0, true, 3, -2},
      {"nearly a whole repeat", 7.999, 8, 0, false, 0, 0.001},
      {"between wraps round", 2, 8, 0, false, 270, 0},
      {"two skipped before: repeat them", 18, 8, 2, false, 8, -2},
      {"five skipped before: repeat what one join may", 18, 8, 5, false, 8, -2},
      {"one repeated before: skip it", 18, 8, -1, false, 11, 1},
      {"one skipped before, a skip would add up to too much", 6.5, 8, 1, false, 273.5, -1},
      {"one repeated before, a skip makes it good", 6.5, 8, -1, false, 0, 1.5},
      {"one skipped before, nothing to cut keeps it within", 7.5, 8, 1, false, 0, 0.5},
      {"one skipped before, sparing", 18, 8, 1, true, 8, -2},
      {"one repeated before, sparing", 18, 8, -1, true, 9, -1},
      {"further out than one join makes good, sparing", 18, 8, 5, true, 8, -2},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const Target target = least_trims({276_cm, Length::cm(row.between)}, Length::cm(row.allowance),
                                      {2_cm, Length::cm(row.out_of_step), row.sparing});
    CHECK(std::abs(target.trims.cm() - row.trims) < 1e-6);
    CHECK(std::abs(target.shift.cm() - row.shift) < 1e-6);
  }
}

TEST_CASE("sparing never cuts more than the rule, and both stay within the tolerance") {
  constexpr std::uint64_t seed = 42;
  Random random(seed);
  for (int n = 0; n < 4000; ++n) {
    CAPTURE(seed);
    CAPTURE(n);
    const Steps s = random_steps(random, false);
    const Target rule = asked(s, 0.25, false);
    const Target sparing = asked(s, 0.25, true);
    CHECK(sparing.trims <= rule.trims);
    CHECK(rule.shift >= Length());  // the rule repeats nothing by itself
    CHECK(std::abs(sparing.shift.cm()) <= 0.25 * static_cast<double>(s.tolerance) + 1e-9);
    CHECK(rule.shift.cm() <= 0.25 * static_cast<double>(s.tolerance) + 1e-9);
  }
}

}  // namespace
}  // namespace ballchange::joining
