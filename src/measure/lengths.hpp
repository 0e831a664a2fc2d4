#pragma once
#include <optional>
#include <vector>

#include "match/path.hpp"
#include "measure/circle.hpp"

// The lengths of a circle's sections from strands whose entries are laid against it.
namespace ballchange::measuring {

// How a strand was laid round the circle.
struct Laid {
  matching::Path path;  // sections as one side numbers them
  Direction direction = Direction::forward;
  double factor = 1;  // the stretch of the ball
};

// What holds besides the strands.
struct Bound {
  std::optional<double> total;       // cm, of the whole circle
  double total_sd = 0;               // cm: what a strand may differ from it by, for its ball
  std::vector<std::size_t> same_as;  // sections known to be equal share a number; empty: each its own
  std::vector<Patch> prior;          // what was believed of each section before; empty: nothing
};

// What was believed counts like this many measured passes.
inline constexpr std::size_t prior_passes = 2;
// cm²
[[nodiscard]] double believed_variance(const Patch& believed);

struct Seen {
  std::size_t times = 0;  // written by itself, with its length
};

struct Lengths {
  double log_width = 0;    // logarithm of how widely the lengths could lie, all together: a volume
  double log_scatter = 0;  // and of how likely it is that sections scatter so, against as they usually do
  std::vector<Seen> seen;
};

// Sets every patch's length and sd to what fits the strands best.
[[nodiscard]] Lengths fit_lengths(Circle& circle, const std::vector<matching::Observed>& strands,
                                  const std::vector<Laid>& laid, const Bound& bound);

}  // namespace ballchange::measuring
