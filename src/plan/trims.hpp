#pragma once
#include <cstddef>
#include <limits>
#include <vector>

#include "plan/order.hpp"

// What each possible join of a hand costs.
namespace ballchange::plan {

// Larger than any sum of trims, small enough to be added up a thousand times.
constexpr Tenths never = std::numeric_limits<Tenths>::max() / 4096;

// Each join by itself. `between`: e - s - m, of any size.
[[nodiscard]] Joined trim(const Hand& hand, Tenths between);
// The mean over all places an unknown end may be at, rounded.
[[nodiscard]] Joined mean_trim(const Hand& hand);
// The one or the other; nothing: an end is not known.
[[nodiscard]] Joined priced(const Hand& hand, std::optional<Tenths> between);
// Where a ball that lies so ends; nothing: not known.
[[nodiscard]] std::optional<Tenths> finish_of(const Hand& hand, const Placed& placed);

// A table of joins, row-major. "Lays": the ways a ball can lie, one each, two where balls may be turned
// (2 ball + turned). Row and column `rest` stand for what comes before the first ball and after the last.
class Trims {
 public:
  explicit Trims(const Hand& hand);
  // Of joins priced elsewhere, none turned; table.size() a square, 0 or more, `never` from each lay to itself.
  explicit Trims(std::vector<Tenths> table);

  [[nodiscard]] std::size_t lays() const { return lays_; }
  [[nodiscard]] std::size_t rest() const { return lays_; }
  [[nodiscard]] std::size_t size() const { return lays_ + 1; }
  [[nodiscard]] std::size_t ball_of(std::size_t lay) const { return turning_ ? lay / 2 : lay; }
  [[nodiscard]] bool turning() const { return turning_; }
  [[nodiscard]] Placed placed(std::size_t lay) const { return {ball_of(lay), turning_ && lay % 2 == 1}; }
  [[nodiscard]] std::size_t lay_of(const Placed& placed) const {
    return turning_ ? 2 * placed.ball + (placed.turned ? 1 : 0) : placed.ball;
  }
  // The same ball worked from its other end; with no turning, the lay itself.
  [[nodiscard]] std::size_t other(std::size_t lay) const { return turning_ ? lay ^ 1U : lay; }
  // What is cut at that join; `never` for a ball with itself and for rest to rest.
  [[nodiscard]] Tenths operator()(std::size_t from, std::size_t to) const { return cost_[from * size() + to]; }
  [[nodiscard]] const std::vector<Tenths>& table() const { return cost_; }

 private:
  bool turning_ = false;
  std::size_t lays_ = 0;
  std::vector<Tenths> cost_;
};

// e - s - m of a join, and of the first ball with what it follows; nothing when an end is not known.
[[nodiscard]] std::optional<Tenths> between(const Hand& hand, const Placed& from, const Placed& to);
[[nodiscard]] std::optional<Tenths> between(const Hand& hand, const Begin& begin, const Placed& to);

// The balls in that order, every join cut as the hand's limits ask: least in all when kept from the start.
[[nodiscard]] Order cut(const Hand& hand, const std::vector<Placed>& balls);

// What the balls of an order leave for the work, trims and allowances taken off.
[[nodiscard]] Tenths yarn_for_work(const Hand& hand, const std::vector<Placed>& balls, Tenths discard);

}  // namespace ballchange::plan
