#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "ledger/state.hpp"

// The yarn that is left, from the scale and the rows together.
//
// Yarn is counted by the label: a gram holds c = ball length / ball mass. A row that takes W by the gauge takes k W by
// the label, k = 1 + N(0, label^2 + gauge^2) until weighings tell it: where a label promises too much, as where rows
// take more than told, balls end sooner, and that is all that counts here. From one weighing to the next k
// moves on by N(0, drift^2). A ball's yarn y starts as its own full mass
// has it, N(c mass, (c step)^2 / 12), or as any ball, N(B, (spread B)^2). Rows worked from it take k u off, u by the
// gauge; joins and swatches what the log says. Each weighing then sees y with the rounding of its scale. (y, k) are
// carried through the log by Kalman's filter (R. E. Kalman, J. Basic Eng. 82, 1960). Another gauge carries k over where
// it only says what the weighings did, otherwise k is open anew.
// A weighing further off than anybody meets has something behind it that this leaves out: rows, a join or a swatch not
// recorded, a mass misread, or a gauge that is not the work's. Each is followed through all weighings, k = 1 + N(0,
// 0.15^2) for such a gauge; what is far less likely than the best goes, and of the rest the one that makes the fewest
// rows is told, wide enough for all (stock/weighings.hpp).
// A contradiction weighed twice in one place stays one. A ball joined "there or later" begins anywhere from there to
// where the old ball ends at the latest, evenly: y is as much more. Weighings past a ball's end are none of it. Where
// nothing was told of the foundation, y of the first ball loses N(0, W^2) to it before its first row.
// It stops being true for yarn much heavier when damp.
namespace ballchange::stock {

struct Doubts {
  Mass scale;            // the step it shows
  double label = 0.02;   // a share: the label's yarn in a gram; one standard deviation, as all here
  double spread = 0.02;  // one ball's yarn against another's, where it was not weighed
  double gauge = 0.02;   // yarn per stitch, as told against as worked. Common practice, no source.
  double drift = 0.01;   // the same from one stretch of rows to the next. Common practice, no source.
};
[[nodiscard]] Doubts doubts_of(const State& state);

// What rows take, as a share of what the gauge has them take, yarn by the label.
struct Takes {
  double share = 1;
  double plus_minus = 0;
};

struct OnBall {
  Length left;        // by the label
  Length plus_minus;  // one standard deviation, the label's own doubt left out
  Length with_takes;  // covariance with Takes::share
};

struct Stock {
  Doubts doubts;
  Takes takes;
  std::optional<Takes> measured;  // by weighings alone, where there was work between two of them, or a full mass before
  std::vector<std::optional<OnBall>> balls;  // as in the state; nothing for plain ones and where it isn't known
  // The ball last weighed, where rows and scale contradict each other on it and what is behind that isn't plain yet.
  std::optional<std::size_t> odd;
  int suspect = 0;                     // then the entry of the weighing that may be misread
  bool beyond = false, again = false;  // and the rows took more than that ball held; and it was weighed alike twice
};
[[nodiscard]] Stock stock_of(const State& state, const Doubts& doubts);

// A share so far from one is told, and rows are counted by it.
inline constexpr double kScaleCounts = 0.005;

// Whether a ball of the dyed yarn was ever on the scale since it was begun or added.
[[nodiscard]] bool weighed(const State& state);

// Rows and scale contradict each other on that ball by more than it holds: nothing is known of what is left on it.
[[nodiscard]] bool left_is_unknown(const Stock& stock, std::size_t ball);

// What is left and whether it is enough, joins not counted, as `state.left` has it, but by the scale where anything was
// weighed: rows by what they take, yarn as the filter has it. Nothing where a ball's yarn is unknown.
[[nodiscard]] Left left_by_scale(const State& state, const Stock& stock);

// The same as an outsider counts it: with the label's doubt.
[[nodiscard]] Length give_or_take(const OnBall& ball, const Doubts& doubts);

// How many rows of W (as told) that makes.
struct Rows {
  double rows = 0, low = 0, high = 0;  // nine in ten lie between
};
[[nodiscard]] Rows rows_left(const OnBall& ball, const Takes& takes, Length row);

// Plainly another yarn per row than told: by more than the weighings and the label may be off together.
[[nodiscard]] bool differs(const Takes& measured, const Doubts& doubts);

}  // namespace ballchange::stock
