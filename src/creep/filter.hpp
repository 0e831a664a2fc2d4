#pragma once
#include <array>
#include <cstddef>

#include "base/length.hpp"

// A Kalman filter over what was seen of a work's colours (R. E. Kalman, "A New Approach to Linear Filtering and
// Prediction Problems", Journal of Basic Engineering 82, 1960).
//
// Its state: t, the share by which a stitch takes more yarn than the gauge in force says; b, the share by which the
// repeat of the ball in work is longer than the yarn's; x, how far along the repeat the colours really are from where
// the ledger has them, cm.
//
//   worked, U of yarn in stitches and P along the repeat:  x += t U - b P;  t drifts, N(0, drift U)
//   the sections between two changes:                      x blurs by the sum of their plus-minus squared
//   a join:                                                x blurs by what the join may be off, b begins anew
//   another gauge:                                         t begins anew, unless it says what was seen
//   a change seen at z from where the ledger has it:       z = x + N(0, v), v the counting
//
// Assumes that sections are independent and normal, and that a hand changes slowly; not that every row is alike. What
// is seen within one ball can't tell a longer repeat from a tighter hand: only t - b, the creep, is known well then.
namespace ballchange::creeping {

// A share, 0.02 for 2 %, with one standard deviation.
struct Share {
  double mean = 0, sd = 0;
};

// What is known beforehand: shares, one standard deviation.
struct Doubts {
  double gauge = 0.03;  // of the yarn per stitch that a gauge tells; common practice, no source
  double ball = 0.02;   // of one ball's repeat
  double drift = 1e-8;  // variance that t gains a cm of yarn worked: 1 % in 100 m; common practice, no source
};

class Filter {
 public:
  explicit Filter(const Doubts& doubts);

  void work(Length in_stitches, Length along);
  void blur(double variance);  // cm^2
  void begin_gauge();
  // A stitch is told to take so many times what it was told to before, 1 / old_over_new. Nearer to what was seen, it
  // says the same in other words and t is kept; any other figure is another hand's, and t begins anew.
  void tell_gauge(double old_over_new);
  void begin_ball();
  void see(Length off, double variance);     // cm^2
  void settle(Length off, double variance);  // the same where nothing was known of x, and t and b learn nothing

  [[nodiscard]] Length off() const { return Length::cm(mean_[2]); }        // x
  [[nodiscard]] double off_variance() const { return covariance_[2][2]; }  // cm^2
  [[nodiscard]] Share looser() const;                                      // t
  [[nodiscard]] Share longer() const;                                      // b
  [[nodiscard]] Share creep() const;                                       // t - b

 private:
  using Row = std::array<double, 3>;
  void forget(std::size_t part, double variance);

  Doubts doubts_;
  Row mean_{};
  std::array<Row, 3> covariance_{};
};

}  // namespace ballchange::creeping
