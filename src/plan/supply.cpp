#include "plan/supply.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "base/normal.hpp"
#include "base/problem.hpp"

namespace ballchange::plan {
namespace {

// A chance that is as good as none, or, missing, as good as all.
constexpr double kNone = 5e-4;
// A weighed ball: the scale's step and what a label may be off by.
constexpr double kWeighed = 0.005;

}  // namespace

double Reach::chance(Length lost) const {
  if (spread <= Length()) return over >= lost ? 1 : 0;
  return normal_cdf((over - lost) / spread);
}

Length TrimSpread::draw(Random& random, int joins) const {
  constexpr int bits = 21;
  constexpr std::int64_t parts = std::int64_t{1} << bits;
  const std::int64_t uncut = std::lround(nothing * parts);
  std::int64_t sum = 0;
  for (int k = 0; k < joins; k += 3) {
    std::uint64_t drawn = random.bits();
    for (int each = std::min(3, joins - k); each > 0; --each, drawn >>= bits) {
      sum += std::max<std::int64_t>(0, static_cast<std::int64_t>(drawn % parts) - uncut);
    }
  }
  return period * (static_cast<double>(sum) / parts);
}

TrimSpread trim_spread(const Work& work) {
  const double uncut = std::min(1.0, (work.sparing ? 2 : 1) * (work.tolerance / work.period));
  return {work.period * (1 - uncut), uncut, work.period};
}

Supply::Yarn Supply::ball(int index) const {
  const auto k = static_cast<std::size_t>(index);
  if (k < work_.on_hand.size() && work_.on_hand[k].yarn) {
    const Length yarn = *work_.on_hand[k].yarn;
    return {yarn, work_.on_hand[k].plus_minus.value_or(yarn * kWeighed)};
  }
  return {work_.ball, work_.ball * work_.ball_plus_minus};
}

Supply::Yarn Supply::all(int balls) const {
  Length mean;
  double variance = 0;
  for (int k = 0; k < balls; ++k) {
    const Yarn one = ball(k);
    mean += one.mean;
    variance += one.plus_minus.cm() * one.plus_minus.cm();
  }
  return {mean, Length::cm(std::sqrt(variance))};
}

Reach Supply::reach(int balls) const {
  const Yarn yarn = all(balls);
  return {yarn.mean - work_.needed,
          Length::cm(std::hypot(yarn.plus_minus.cm(), work_.needed.cm() * work_.needed_plus_minus))};
}

int Supply::fewest() const {
  for (int balls = 1; balls <= most_balls; ++balls) {
    if (reach(balls).chance(work_.allowance * (balls - 1)) > 1e-6) return balls;
  }
  refuse_too_many(most_balls + 1);
  return most_balls;
}

bool Supply::long_balls() const {
  const auto balls = static_cast<int>(work_.on_hand.size());
  for (int k = 1; k <= std::max(balls, 1); ++k) {
    const Yarn one = ball(k);
    if (one.mean - 6 * one.plus_minus < trim_spread(work_).most + work_.allowance) return false;
  }
  return true;
}

Hand joining_as(const Work& work) {
  Hand hand;
  hand.period = tenths(work.period);
  hand.allowance = tenths(work.allowance);
  hand.tolerance = tenths(work.tolerance);
  hand.sparing = work.sparing;
  hand.keep_from_start = work.keep_from_start;
  if (hand.keep_from_start) hand.tolerance = std::min(hand.tolerance, (hand.period - 1) / 2);
  if (work.mirror) hand.mirror = tenths(*work.mirror);
  return hand;
}

std::vector<Enough> worth_telling(int first, const std::vector<double>& chance) {
  std::vector<Enough> told;
  for (std::size_t k = 0; k < chance.size(); ++k) {
    if (chance[k] < kNone) continue;
    told.push_back({first + static_cast<int>(k), chance[k]});
    if (chance[k] > 1 - kNone) break;
  }
  return told;
}

BallCount counted(int first, const std::vector<double>& chance) {
  BallCount count{static_cast<double>(first), first, first, first};
  for (std::size_t k = 0; k < chance.size(); ++k) {
    const int next = first + static_cast<int>(k) + 1;
    count.mean += 1 - chance[k];
    if (chance[k] < 0.50) count.p50 = next;
    if (chance[k] < 0.90) count.p90 = next;
    if (chance[k] < 0.95) count.p95 = next;
  }
  return count;
}

void refuse_too_many(int balls) {
  if (balls <= most_balls) return;
  throw Problem(Fault::content, fmt::format("that takes more than {} balls, the most that is reckoned with; look "
                                            "again at the yarn needed and at the length of a ball, or estimate a part "
                                            "of the work at a time",
                                            most_balls));
}

}  // namespace ballchange::plan
