#pragma once
#include <cstddef>
#include <vector>

#include "project/advise_project.hpp"

// Which fresh ball to take next: what each leaves for the balls after it.
namespace ballchange {

struct BallsAhead {
  std::vector<BallAhead> balls;  // least yarn lost in all first; from either end, where the yarn reads alike from both
  std::size_t left_out = 0;      // so many more cost more now, and were not looked at
};

// Of the fresh balls. Empty where nothing is known of their other ends, so that all leave the same, where there is no
// choice, where the old end's place isn't known, and at a knot.
[[nodiscard]] BallsAhead balls_ahead(const OpenProject& open, const ProjectAdvice& advised, const Options& options,
                                     const Context& context);

// What joining a ball costs whose end may lie anywhere on the repeat, on average.
[[nodiscard]] Length unread_mean(const OpenProject& open, const Options& options);

}  // namespace ballchange
