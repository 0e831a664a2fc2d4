#include "project/contested.hpp"

#include <algorithm>

#include "ledger/shifts.hpp"
#include "stock/on_balls.hpp"

namespace ballchange {
namespace {

constexpr Length kOneCount = 3_cm;  // nearer than that no counting tells

}  // namespace

std::optional<ContestedShift> contested_shift(const State& state) {
  const auto counted = std::find_if(state.joins.rbegin(), state.joins.rend(),
                                    [](const JoinState& join) { return join.seen && join.held == JoinHeld::in_work; });
  const bool other_size = state.took_other_size();
  const auto& gauge = state.gauge.now().yarn_per_stitch;
  const auto& as_counted = state.totals.running_shift;
  if (counted == state.joins.rend() || other_size || !gauge || !as_counted) return std::nullopt;
  const stock::Stock stock = stock::stock_of(state, stock::doubts_of(state));
  const bool by_scale = stock.measured && stock::differs(*stock.measured, stock.doubts);
  const Length stitch = *gauge * (by_scale ? stock.measured->share : 1.0);
  const auto other = running_shift_by(state, stitch);
  if (!other || abs(nearest(*other - *as_counted, state.yarn.repeat.total())) < kOneCount) return std::nullopt;
  return ContestedShift{*as_counted, *other, counted->seen->stitch, stitch, by_scale};
}

}  // namespace ballchange
