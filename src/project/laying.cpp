#include "project/laying.hpp"

#include <algorithm>

#include "console/join_options.hpp"
#include "join/choice.hpp"

namespace ballchange {

Laying::Laying(const BallsTold& told) : told_(told) {
  refuse_wide_tolerance(told.wish, told.yarn.repeat, told.measures.told);
  const joining::Terms terms = joining::terms_in_force(told.wish, told.fabric, told.yarn.reckoning, told.yarn.felts);
  method_ = terms.method;
  // Where the same sections come several times over, no reading tells one time from the next, and none need.
  hand_.period = plan::tenths(shortest_period(told.yarn.repeat));
  hand_.allowance = plan::tenths(terms.allowance);
  hand_.tolerance = plan::tenths(terms.tolerance);
  hand_.sparing = told.wish.sparing;
  hand_.keep_from_start = told.wish.from_the_start;
  if (hand_.keep_from_start) hand_.tolerance = std::min(hand_.tolerance, (hand_.period - 1) / 2);
  if (const auto axis = mirror_axis(told.yarn.repeat)) hand_.mirror = plan::tenths(*axis);
}

void Laying::goes_on_from(std::optional<Length> end, Direction runs, Length out_of_step) {
  runs_ = runs;
  hand_.begin = plan::Begin{std::nullopt, hand_.allowance, plan::tenths(out_of_step)};
  if (end) hand_.begin->place = on_the_way(*end);
}

void Laying::begins_at(Length place) { hand_.begin = plan::Begin{on_the_way(place), 0, 0}; }

void Laying::add(const TwoEnds& ends, std::vector<OpenEnd>& open) {
  PlacedBall placed = placed_ball(ends, told_.yarn, told_.written, told_.match, open);
  // A ball that runs against the work is worked from its other end: what was its start is then its finish.
  const bool other_end = placed.direction && *placed.direction != runs_;
  if (other_end) placed.start.swap(placed.finish);
  plan::Ball ball;
  if (placed.start) ball.start = on_the_way(*placed.start);
  if (placed.finish) ball.finish = on_the_way(*placed.finish);
  if (ends.yarn) ball.yarn = plan::tenths(*ends.yarn);
  hand_.balls.push_back(ball);
  balls_.push_back({ends.id, other_end, placed.longer});
}

void Laying::needs(Length yarn) { hand_.need = plan::tenths(yarn); }

plan::Tenths Laying::on_the_way(Length place) const {
  const plan::Tenths p = plan::tenths(place);
  return plan::wrapped(runs_ == Direction::forward ? p : -p, hand_.period);
}

}  // namespace ballchange
