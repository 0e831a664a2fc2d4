#pragma once
#include "plan/estimate.hpp"

// Balls as they come, worked out: chances are carried through joins on a fine grid of lengths.
namespace ballchange::plan {

// No knots, no end of a ball known, each join by itself, no ball shorter than a join may take.
[[nodiscard]] bool can_be_worked_out(const Work& work);
// Such a work: asserted. Throws Problem(content) where more than `most_balls` would be needed.
[[nodiscard]] WayEstimate worked_out(const Work& work);
// That the first so many balls of it are enough, >= 1. Such a work: asserted.
[[nodiscard]] double chance_worked_out(const Work& work, int balls);

}  // namespace ballchange::plan
