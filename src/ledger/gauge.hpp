#pragma once
#include <climits>
#include <compare>
#include <optional>
#include <vector>

#include "base/length.hpp"

// How much yarn the work holds at each stitch of it, through every change of gauge.
namespace ballchange {

// `stitch` stitches of that row are done; without it the whole row, its stitches not known.
struct WorkPlace {
  int row = 1;
  std::optional<int> stitch;
  friend bool operator==(const WorkPlace&, const WorkPlace&) = default;
  friend std::strong_ordering operator<=>(const WorkPlace& a, const WorkPlace& b) {
    if (a.row != b.row) return a.row <=> b.row;
    return a.stitch.value_or(INT_MAX) <=> b.stitch.value_or(INT_MAX);
  }
};

struct Gauge {
  std::optional<Length> yarn_per_stitch;  // w > 0
  Length yarn_per_turn;                   // v
};

// Yarn used = foundation + (R-1) W + S w, W = S w + v; where the gauge changes on the way, each stretch of the work
// counts by the gauge it was worked in.
class GaugeHistory {
 public:
  struct Stretch {
    WorkPlace from;
    std::optional<Length> used;
    Gauge gauge;
  };

  // A foundation that was not told counts as nothing.
  GaugeHistory(std::optional<int> stitches, std::optional<Length> foundation, const Gauge& first);
  [[nodiscard]] bool foundation_told() const { return foundation_told_; }

  void change(const WorkPlace& here, const Gauge& gauge);  // at or past all that were told before
  void back_to(const WorkPlace& here);                     // ravelled: what was worked past it is gone, the gauge stays

  // Unknown without w, and past the first row without the stitches of a row.
  [[nodiscard]] std::optional<Length> used(const WorkPlace& at) const;
  // The stitch nearest to where so much is used.
  [[nodiscard]] std::optional<WorkPlace> place(Length used) const;
  [[nodiscard]] const Gauge& now() const { return stretches_.back().gauge; }
  [[nodiscard]] const Gauge& at(const WorkPlace& at) const { return stretch_at(at).gauge; }
  [[nodiscard]] const std::vector<Stretch>& stretches() const { return stretches_; }  // in the order of the work
  [[nodiscard]] std::optional<Length> row() const;                                    // W, now

 private:
  [[nodiscard]] const Stretch& stretch_at(const WorkPlace& at) const;
  [[nodiscard]] std::optional<Length> row_of(const Gauge& gauge) const;

  std::optional<int> stitches_;
  bool foundation_told_;
  std::vector<Stretch> stretches_;  // never empty
};

}  // namespace ballchange
