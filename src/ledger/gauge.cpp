#include "ledger/gauge.hpp"

#include <algorithm>
#include <cmath>

namespace ballchange {

GaugeHistory::GaugeHistory(std::optional<int> stitches, std::optional<Length> foundation, const Gauge& first)
    : stitches_(stitches),
      foundation_told_(foundation.has_value()),
      stretches_{{{1, 0}, foundation.value_or(Length()), first}} {}

void GaugeHistory::change(const WorkPlace& here, const Gauge& gauge) {
  if (stretches_.back().from == here) {
    stretches_.back().gauge = gauge;
  } else {
    stretches_.push_back({here, used(here), gauge});
  }
}

void GaugeHistory::back_to(const WorkPlace& here) {
  const Gauge gauge = now();
  while (stretches_.size() > 1 && stretches_.back().from >= here) stretches_.pop_back();
  if (stretches_.back().from >= here) {
    stretches_.back().gauge = gauge;
  } else {
    change(here, gauge);
  }
}

std::optional<Length> GaugeHistory::row_of(const Gauge& gauge) const {
  if (!stitches_ || !gauge.yarn_per_stitch) return std::nullopt;
  return *stitches_ * *gauge.yarn_per_stitch + gauge.yarn_per_turn;
}

std::optional<Length> GaugeHistory::row() const { return row_of(now()); }

const GaugeHistory::Stretch& GaugeHistory::stretch_at(const WorkPlace& at) const {
  auto stretch = std::upper_bound(stretches_.begin(), stretches_.end(), at,
                                  [](const WorkPlace& place, const Stretch& s) { return place < s.from; });
  if (stretch != stretches_.begin()) --stretch;
  return *stretch;
}

std::optional<Length> GaugeHistory::used(const WorkPlace& at) const {
  const auto& [from, before, gauge] = stretch_at(at);
  const std::optional<int> stitch = at.stitch ? at.stitch : stitches_;
  const std::optional<int> start = from.stitch ? from.stitch : stitches_;
  if (!before || !gauge.yarn_per_stitch || !stitch || !start) return std::nullopt;
  const Length within = (*stitch - *start) * *gauge.yarn_per_stitch;
  if (at.row == from.row) return *before + within;
  const std::optional<Length> row = row_of(gauge);
  if (!row) return std::nullopt;
  return *before + (at.row - from.row) * *row + within;
}

std::optional<WorkPlace> GaugeHistory::place(Length used) const {
  auto stretch = std::upper_bound(stretches_.begin(), stretches_.end(), used,
                                  [](Length length, const Stretch& s) { return s.used && length < *s.used; });
  if (stretch != stretches_.begin()) --stretch;
  const auto& [from, before, gauge] = *stretch;
  const std::optional<Length> row = row_of(gauge);
  const std::optional<int> start = from.stitch ? from.stitch : stitches_;
  if (!before || !row || !start) return std::nullopt;
  constexpr double hair = 1e-9;  // a row's end is not the next one's beginning for a rounding
  const Length past = *start * *gauge.yarn_per_stitch + (used - *before);
  constexpr double most = 1e9;
  const double rows = std::clamp(std::floor(past / *row + hair), 0.0, most);
  const double stitch = std::clamp(std::round((past - rows * *row) / *gauge.yarn_per_stitch), 0.0, 1.0 * *stitches_);
  return WorkPlace{from.row + static_cast<int>(rows), static_cast<int>(stitch)};
}

}  // namespace ballchange
