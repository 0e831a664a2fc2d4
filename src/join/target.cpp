#include "join/target.hpp"

#include <algorithm>

namespace ballchange::joining {
namespace {

// The least trims, at least 0, that leave the shift `wanted`.
Target trims_for(const Gap& gap, Length allowance, Length wanted) {
  Length trims = wrap(gap.between - allowance + wanted, gap.period);
  if (gap.period - trims < hardly) trims = Length();  // rounding must not cost a whole repeat
  return {trims, wanted};
}

}  // namespace

bool Limits::allow(Length shift) const {
  const Length most = tolerance + hardly;
  return abs(shift) <= most && abs(out_of_step + shift) <= most;
}

Target least_trims(const Gap& gap, Length allowance, const Limits& limits) {
  const Length t = limits.tolerance;
  const Length d = limits.out_of_step;
  const Length uncut = nearest(allowance - gap.between, gap.period);
  const Length lowest = std::max(-t, -t - d);
  const bool any_allowed = lowest <= std::min(t, t - d);
  if (limits.allow(uncut) && (limits.sparing || uncut >= -hardly)) return {Length(), uncut};
  if (limits.sparing && any_allowed) return trims_for(gap, allowance, lowest);
  return trims_for(gap, allowance, std::clamp(-d, -t, t));
}

Target trims_or_skip(const Gap& gap, Length allowance, const Limits& limits, Length most_skip) {
  const Length uncut = nearest(allowance - gap.between, gap.period);
  const Limits wider{most_skip, limits.out_of_step, limits.sparing};
  if (uncut >= -hardly && wider.allow(uncut)) return {Length(), uncut};
  return least_trims(gap, allowance, limits);
}

}  // namespace ballchange::joining
