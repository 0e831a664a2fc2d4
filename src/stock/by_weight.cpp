#include "stock/by_weight.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

#include "base/normal.hpp"
#include "stock/scale.hpp"

namespace ballchange::stock {
namespace {

double rows_at(const State& state, const std::optional<WorkPlace>& at) {
  if (!at) return 0;
  const double stitches = state.fabric.stitches.value_or(0);
  return at->row - 1 + (at->stitch && stitches > 0 ? *at->stitch / stitches : 1);
}

// What is over after so many rows more, in grams, and its standard deviation: both weighings' roundings.
struct Over {
  double mean = 0, plus_minus = 0;
};
Over over_after(const ByWeight& yarn, double rows) {
  const ByWeight::PerRow& rate = *yarn.per_row;
  const double part = rows / rate.rows;
  return {yarn.mass->g() - rows * rate.mass.g(),
          std::hypot(rate.last_doubt.g() * (1 + part), rate.first_doubt.g() * part, rate.drift.g() * rows)};
}

Mass rounding_weighed(const Weighing& weighing, const Doubts& doubts) {
  return rounding_of(weighing.scale.value_or(std::min(doubts.scale, step_of(weighing.mass))));
}

// What the ball weighed after so many rows.
struct Point {
  Mass mass, doubt;
  double rows = 0;
  int rips = 0, breaks = 0;  // told before it
};

// Where the work came to a ball of the dyed yarn, whole or as weighed last before that; nothing where either isn't
// known, or the yarn was ravelled since the beginning, so that rows say nothing.
std::optional<Point> start_of(const State& state, std::size_t index, const Doubts& doubts) {
  const BallState& ball = state.balls[index];
  Point start;
  const auto gram = yarn_in_a_gram(state, ball);
  if (ball.mass) {
    start.mass = *ball.mass;
    start.doubt = rounding_of(ball.scale.value_or(step_of(*ball.mass)));
  } else if (ball.length && gram) {
    start.mass = Mass::g(*ball.length / *gram);
    start.doubt = Mass::g(doubts.spread * start.mass.g());
  }
  for (const Weighing& weighing : state.weighings) {
    if (weighing.ball == index && !weighing.in_work) {
      start.mass = weighing.mass;
      start.doubt = rounding_weighed(weighing, doubts);
      start.breaks = weighing.breaks;
    }
  }
  if (start.mass <= Mass()) return std::nullopt;
  Length taken;
  if (state.begun && state.begun->ball == index) {
    taken = state.begun->trim + state.gauge.stretches().front().used.value_or(Length());  // the foundation
  } else {
    const auto join = std::find_if(state.joins.rbegin(), state.joins.rend(), [&](const JoinState& one) {
      return one.new_ball == ball.id && !one.knot && one.held == JoinHeld::in_work;
    });
    if (join == state.joins.rend() || !join->place || join->at_least) return std::nullopt;
    taken = join->trim_new;
    start.rows = rows_at(state, join->place);
    if (start.breaks == 0) {
      start.breaks = static_cast<int>(
          std::count_if(state.gauge_changes.begin(), state.gauge_changes.end(),
                        [&](const GaugeChange& one) { return one.other_size && one.entry < join->entry; }));
    }
  }
  if (gram) start.mass = Mass::g(start.mass.g() - taken / *gram);
  return start;
}

std::vector<Point> points_of(const State& state, std::size_t index, const Doubts& doubts) {
  const bool plain = state.balls[index].plain;
  std::vector<Point> points;
  if (const auto start = plain ? std::nullopt : start_of(state, index, doubts)) points.push_back(*start);
  for (const Weighing& weighing : state.weighings) {
    // Of a dyed ball that lay aside, rows took nothing.
    if (weighing.ball != index || weighing.past_end || (!plain && !weighing.in_work)) continue;
    const Point point{weighing.mass, rounding_weighed(weighing, doubts), rows_at(state, weighing.at), weighing.rips,
                      weighing.breaks};
    // Over a rip, a swatch, a knot or another hook its rows are no measure of what was taken from it.
    const bool other = !points.empty() && (points.front().rips != point.rips || points.front().breaks != point.breaks);
    if (other) points.clear();
    // Weighed where the rows begin, it tells better than a label what they began with.
    if (points.size() == 1 && point.rows <= points.front().rows) points.clear();
    points.push_back(point);
  }
  return points;
}

std::optional<ByWeight::PerRow> rate_between(const Point& first, const Point& last, const Doubts& doubts) {
  const double rows = last.rows - first.rows;
  const double grams = first.mass.g() - last.mass.g();
  if (rows <= 0 || grams <= 0) return std::nullopt;
  ByWeight::PerRow rate{rows,        last.rows,  Mass::g(grams / rows),
                        first.doubt, last.doubt, Mass::g(doubts.drift * grams / rows)};
  rate.left = last.mass.g() / rate.mass.g();
  const double share = last.mass.g() / grams;
  const double rounding = std::hypot(last.doubt.g() * (1 + share), first.doubt.g() * share) / rate.mass.g();
  const double doubt = kNineInTen * std::hypot(rounding, doubts.drift * rate.left);
  rate.low = std::max(0.0, rate.left - doubt);
  rate.high = rate.left + doubt;
  return rate;
}

}  // namespace

bool counted_by_weight(const State& state, const Stock& stock, std::size_t ball) {
  return !stock.balls[ball] || (!state.gauge.row() && !state.at);
}

ByWeight by_weight(const State& state, std::size_t index, const Doubts& doubts) {
  const BallState& ball = state.balls[index];
  const auto last = std::find_if(state.weighings.rbegin(), state.weighings.rend(),
                                 [&](const Weighing& one) { return one.ball == index; });
  const bool weighed = last != state.weighings.rend();
  ByWeight told;
  told.mass = weighed ? last->mass : ball.mass;
  // Weighed, and that says no length: what it held before says nothing of it now.
  if (!weighed || last->left) told.left = weighed && !ball.plain ? last->left : ball.left;
  told.in_a_gram = yarn_in_a_gram(state, ball);
  if (told.left) {
    const double rounding = weighed && told.in_a_gram ? rounding_weighed(*last, doubts).g() * told.in_a_gram->cm() : 0;
    told.plus_minus = Length::cm(std::hypot(rounding, doubts.label * told.left->cm()));
  }
  const std::vector<Point> points = points_of(state, index, doubts);
  if (points.size() > 1) told.per_row = rate_between(points.front(), points.back(), doubts);
  return told;
}

double chance_for(const ByWeight& yarn, Length needed) {
  assert(yarn.left);
  if (yarn.plus_minus <= Length()) return *yarn.left >= needed ? 1 : 0;
  return normal_cdf((*yarn.left - needed) / yarn.plus_minus);
}

double chance_for_rows(const ByWeight& yarn, double rows) {
  assert(yarn.per_row && yarn.mass);
  const Over over = over_after(yarn, rows);
  return normal_cdf(over.mean / over.plus_minus);
}

std::optional<Length> row_by_weight(const ByWeight& yarn) {
  if (!yarn.per_row || !yarn.in_a_gram) return std::nullopt;
  return yarn.per_row->mass.g() * *yarn.in_a_gram;
}

}  // namespace ballchange::stock
