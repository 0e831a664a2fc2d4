#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "base/length.hpp"

// How much yarn a work will cost in ball changes, and how many balls to buy, before anything is read.
//
// The yarn of n balls is the sum of their lengths, each N(ball, (plus_minus ball)^2); a ball change takes the allowance
// m and trims X off. Where nothing is known of the ends, the least that keeps step is uniform on the repeat R: as a
// rule X is nothing with chance t/R and uniform up to R - t otherwise; sparing 2t/R, and uniform up to R - 2t. Without
// tolerance the sum of n trims, in repeats, is Irwin's and Hall's (Biometrika 19, 1927). A knot inside a ball is one
// more such join; a ball has a Poisson count of them. What is left of the last ball is not waste.
namespace ballchange::plan {

// A ball on hand already.
struct OnHand {
  std::optional<Length> yarn;             // weighed; nothing: as any other ball
  std::optional<Length> start, finish;    // places on the repeat; nothing: not read
  std::optional<Length> plus_minus = {};  // of its yarn, one standard deviation; nothing: as a usual scale tells it
};

struct Work {
  Length needed;                 // yarn in the finished work, > 0
  double needed_plus_minus = 0;  // a share of it, as when other hands make it
  Length period;                 // R > 0
  Length allowance;              // m >= 0
  Length tolerance;              // t >= 0
  bool sparing = false;
  bool keep_from_start = false;   // the shifts of all joins together stay within t as well
  std::optional<Length> mirror;   // twice the place of a mirror axis; nothing: directional
  Length ball;                    // what a ball holds, > 0
  double ball_plus_minus = 0.02;  // a share of it, one standard deviation, 0 .. 0.15
  double knots = 0;               // a ball, on average, 0 .. 5
  std::vector<OnHand> on_hand;    // used first, in this order where nothing better is known
};

// How the next ball is found.
enum class Way {
  as_they_come,  // any ball
  best_of_hand,  // of the balls bought the one that cuts least now: their starts are read
  ends_read,     // both ends of all are read first, the best order worked out
};

struct Waste {
  Length mean, p50, p90, p95;
};

struct BallCount {
  double mean = 0;
  int p50 = 0, p90 = 0, p95 = 0;  // as many are enough with that chance
};

struct Enough {
  int balls = 0;
  double chance = 0;
};

struct WayEstimate {
  Way way = Way::as_they_come;
  bool exact = false;          // worked out, not simulated
  std::int64_t simulated = 0;  // pieces
  Waste waste;                 // trims and allowances
  BallCount balls;
  std::vector<Enough> enough;  // from the first count with a chance worth telling to the first that is all but sure
};

struct Simulation {
  std::uint64_t seed = 1;
  unsigned threads = 2;                  // changes nothing but the time it takes
  std::function<void(double)> progress;  // how much is done, 0 .. 1; called from one thread at a time
  std::int64_t pieces = 0;               // as they come; 0: as many as the answer needs
};

constexpr int most_balls = 1000;

// Throws Problem(content) where more than `most_balls` would be needed.
[[nodiscard]] WayEstimate estimate(const Work& work, Way way, const Simulation& simulation = {});
// That the first so many balls are enough, as they come; balls >= 1. Worked out, or simulated where that can't be done;
// then it throws as estimate does.
[[nodiscard]] double chance_of_enough(const Work& work, int balls, const Simulation& simulation = {});
// All as they come, simulated even where it can be worked out.
[[nodiscard]] WayEstimate simulate_as_they_come(const Work& work, const Simulation& simulation);

}  // namespace ballchange::plan
