#include "offcut/bridge.hpp"

#include <cassert>

#include "join/target.hpp"

namespace ballchange::offcuts {

std::optional<Bridge> bridge(const Yarn& yarn, const Strand& old_strand, const Offcut& offcut, const Strand& new_strand,
                             const Fabric& fabric, std::optional<RowStitch> hook, const JoinWish& wish,
                             const Join& direct) {
  assert(direct.discard);
  const Repeat& repeat = yarn.repeat;
  Bridge found;
  found.other_end = offcut.direction != old_strand.placing.best().direction;
  const Offcut worked = found.other_end ? turned(repeat, offcut) : offcut;
  const Advice first = advise(yarn, old_strand, end_of(repeat, worked, End::new_end), fabric, hook, wish);
  if (first.verdict != JoinVerdict::cut) return std::nullopt;
  found.to_offcut = first.joins.front();
  Strand rest = end_of(repeat, part_of(repeat, worked, *found.to_offcut.trim_new, worked.length()), End::old_end);
  // Loose from the first join on.
  rest.reading.loose = rest.reading.measured() - first.allowance;
  rest.reading.hook_entry = rest.reading.entries.size();
  JoinWish then = wish;
  then.out_of_step = found.to_offcut.running_shift;
  const Advice second = advise(yarn, rest, new_strand, fabric, std::nullopt, then);
  if (second.verdict != JoinVerdict::cut || second.ravel_back > joining::hardly) return std::nullopt;
  found.to_ball = second.joins.front();
  found.discard = *found.to_offcut.discard + *found.to_ball.discard;
  found.allowance = first.allowance + second.allowance;
  found.saves = *direct.discard + direct.allowance - found.discard - found.allowance;
  if (found.saves <= habits(yarn.reckoning).tape_fixed) return std::nullopt;
  return found;
}

}  // namespace ballchange::offcuts
