#include "stock/stops.hpp"

#include <algorithm>

#include "join/target.hpp"
#include "ledger/worked.hpp"

namespace ballchange::stock {
namespace {

WorkPlace start_of_work() { return {1, 0}; }

// Of two joins to one ball, that from its other end only where it saves so much.
void leave_one_end_each(std::vector<Stop>& joins, Length worth_turning) {
  const std::vector<Stop> all = joins;
  std::erase_if(joins, [&](const Stop& one) {
    return std::any_of(all.begin(), all.end(), [&](const Stop& other) {
      if (other.ball != one.ball || other.other_end == one.other_end) return false;
      return one.other_end ? other.trims - one.trims < worth_turning : one.trims - other.trims >= worth_turning;
    });
  });
}

// That so much yarn makes.
double rows_of(Length yarn, const Stock& stock, Length row) { return yarn / (stock.takes.share * row); }

}  // namespace

std::optional<Ending> ending(const State& state, const Stock& stock) {
  const auto row = state.gauge.row();
  if (!state.working || !row || !state.used || !stock.balls[*state.working]) return std::nullopt;
  if (state.balls[*state.working].overdrawn > Length()) return std::nullopt;
  const Length begun = state.at ? *state.used : state.gauge.used(start_of_work()).value_or(Length());
  OnBall on = *stock.balls[*state.working];
  if (!state.at) on.left -= begun;  // the foundation comes first
  Ending told;
  told.rows = rows_left(on, stock.takes, *row);
  const auto place = [&](double rows) { return state.gauge.place(begun + rows * *row); };
  const auto at = place(told.rows.rows);
  const auto low = place(told.rows.low);
  const auto high = place(told.rows.high);
  if (!at || !low || !high) return std::nullopt;
  told.at = *at;
  told.low = *low;
  told.high = *high;
  return told;
}

Length to_lay_out(const Repeat& repeat, Length allowance, Length room) {
  Length longest;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const Length both = repeat.sections()[k].length + repeat.sections()[(k + 1) % repeat.size()].length;
    longest = std::max(longest, both);
  }
  return longest + allowance + room;
}

std::optional<LayOut> lay_out(const State& state, const Stock& stock, const Ending& ending, Length length) {
  const auto row = state.gauge.row();
  if (!row) return std::nullopt;
  const WorkPlace here = state.at.value_or(start_of_work());
  const int next = here.row + (state.at && row_is_done(here, state.fabric) ? 1 : 0);
  const double rows = ending.rows.low - rows_of(length, stock, *row);
  if (rows <= 0) return LayOut{next, true};
  const Length used = state.at ? *state.used : state.gauge.used(start_of_work()).value_or(Length());
  const auto at = state.gauge.place(used + rows * *row);
  if (!at) return std::nullopt;
  const int before = at->row + (row_is_done(*at, state.fabric) ? 1 : 0);
  return LayOut{before, before <= next};
}

std::optional<WorkPlace> stop_by(const State& state, const Stock& stock, const Ending& ending, Length left) {
  const Length row = *state.gauge.row();
  const Length more = (ending.rows.low - rows_of(left, stock, row)) * row;
  if (more < Length()) return std::nullopt;
  const Length used = state.at ? *state.used : state.gauge.used(start_of_work()).value_or(Length());
  auto at = state.gauge.place(used + more);
  // Rounded to a stitch, it must not leave less.
  if (at && at->stitch.value_or(0) > 0 && state.gauge.used(*at) > used + more) at->stitch = *at->stitch - 1;
  return at;
}

Stops stops(const End& old_end, const std::vector<FreshEnd>& fresh, const Joining& joining, Length doubt,
            Length out_of_step, Length worth_turning) {
  const Length tolerance = std::max(Length(), joining.tolerance - doubt);
  const joining::Limits limits{tolerance, joining.keep_from_start ? out_of_step : Length(), joining.sparing};
  Stops told;
  for (const FreshEnd& one : fresh) {
    if (one.end.backward != old_end.backward) {
      told.other.push_back(one.ball);
      continue;
    }
    // Two that both run backward are joined on the mirrored repeat.
    const Length between = old_end.backward ? one.end.place - old_end.place : old_end.place - one.end.place;
    const joining::Target target =
        joining::least_trims({joining.period, wrap(between, joining.period)}, joining.allowance, limits);
    told.joins.push_back({one.ball, target.trims, target.shift, one.other_end});
  }
  leave_one_end_each(told.joins, worth_turning);
  std::stable_sort(told.joins.begin(), told.joins.end(),
                   [](const Stop& a, const Stop& b) { return a.trims < b.trims; });
  return told;
}

}  // namespace ballchange::stock
