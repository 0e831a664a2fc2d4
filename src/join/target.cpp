#include "join/target.hpp"

#include <algorithm>

namespace ballchange::joining {
namespace {

constexpr Length hardly = Length::cm(1e-9);

// The least trims, at least 0, that leave the shift `wanted`.
Target trims_for(const Gap& gap, Length allowance, Length wanted) {
  Length trims = wrap(gap.between - allowance + wanted, gap.period);
  if (gap.period - trims < Length::cm(1e-6)) trims = Length();  // rounding must not cost a whole repeat
  return {trims, wanted};
}

}  // namespace

Target least_trims(const Gap& gap, Length allowance, const Limits& limits) {
  const Length t = limits.tolerance;
  const Length d = limits.out_of_step;
  const Length uncut = nearest(allowance - gap.between, gap.period);
  const Length lowest = std::max(-t, -t - d);
  const Length highest = std::min(t, t - d);
  const bool allowed = uncut >= lowest - hardly && uncut <= highest + hardly;
  if (allowed && (limits.sparing || uncut >= -hardly)) return {Length(), uncut};
  if (limits.sparing && lowest <= highest) return trims_for(gap, allowance, lowest);
  return trims_for(gap, allowance, std::clamp(-d, -t, t));
}

}  // namespace ballchange::joining
