#include "creep/stretch.hpp"

#include <cmath>

#include "creep/follow.hpp"

namespace ballchange::creeping {
namespace {

constexpr double kOneInFifty = 2.326;  // standard deviations, either way

double square(double value) { return value * value; }

// Where a bar stands at its end, or another entry on both its sides.
bool whole(const Reading& reading, std::size_t entry) {
  const bool first = entry == 0 && !reading.bar_at_loose_end;
  const bool last = entry + 1 == reading.entries.size() && !reading.bar_at_open_end;
  return !first && !last;
}

}  // namespace

bool Longer::tells() const { return unusual || plain(likely); }

std::optional<Longer> longer_by(const Yarn& yarn, const Reading& reading, const Placing& placing, const Tape& tape) {
  if (placing.verdict != Verdict::settled || yarn.ball_plus_minus <= 0) return std::nullopt;
  double by_sections = 0;  // 1 / variance of what they say alone
  double pull = 0;
  for (const Explained& explained : placing.why) {
    const Entry& entry = reading.entries[explained.entry];
    if (!entry.length || !whole(reading, explained.entry)) continue;
    double mean = 0;
    double variance = square(tape.fixed.cm() + tape.share * entry.length->cm()) + entry.rounding_variance;
    for (const std::size_t section : explained.sections) {
      mean += yarn.repeat.sections()[section].length.cm();
      variance += square(yarn.repeat.sections()[section].plus_minus.cm());
    }
    by_sections += square(mean) / variance;
    pull += mean * (entry.length->cm() - mean) / variance;
  }
  if (by_sections <= 0) return std::nullopt;
  const double weight = by_sections + 1 / square(yarn.ball_plus_minus);
  Longer longer{{pull / weight, 1 / std::sqrt(weight)}, pull / by_sections, false};
  longer.unusual = std::abs(longer.as_read) > kOneInFifty * std::sqrt(square(yarn.ball_plus_minus) + 1 / by_sections);
  return longer;
}

}  // namespace ballchange::creeping
