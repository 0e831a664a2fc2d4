#include "creep/stretch.hpp"

#include <cmath>

namespace ballchange::creeping {
namespace {

double square(double value) { return value * value; }

// Where a bar stands at its end, or another entry on both its sides.
bool whole(const Reading& reading, std::size_t entry) {
  const bool first = entry == 0 && !reading.bar_at_loose_end;
  const bool last = entry + 1 == reading.entries.size() && !reading.bar_at_open_end;
  return !first && !last;
}

}  // namespace

std::optional<Share> longer_by(const Yarn& yarn, const Reading& reading, const Placing& placing, const Tape& tape) {
  if (placing.verdict != Verdict::settled || yarn.ball_plus_minus <= 0) return std::nullopt;
  double weight = 1 / square(yarn.ball_plus_minus);
  double pull = 0;
  bool any = false;
  for (const Explained& explained : placing.why) {
    const Entry& entry = reading.entries[explained.entry];
    if (!entry.length || !whole(reading, explained.entry)) continue;
    double mean = 0;
    double variance = square(tape.fixed.cm() + tape.share * entry.length->cm()) + entry.rounding_variance;
    for (const std::size_t section : explained.sections) {
      mean += yarn.repeat.sections()[section].length.cm();
      variance += square(yarn.repeat.sections()[section].plus_minus.cm());
    }
    weight += square(mean) / variance;
    pull += mean * (entry.length->cm() - mean) / variance;
    any = true;
  }
  if (!any) return std::nullopt;
  return Share{pull / weight, 1 / std::sqrt(weight)};
}

}  // namespace ballchange::creeping
