#pragma once
#include <vector>

#include "project/advise_project.hpp"

// Which fresh ball to take next: what each leaves for the balls after it.
namespace ballchange {

// Of the fresh balls, least yarn lost in all first. Empty where nothing is known of their other ends, so that all leave
// the same, where the old end's place isn't known, and at a knot.
[[nodiscard]] std::vector<BallAhead> balls_ahead(const OpenProject& open, const ProjectAdvice& advised,
                                                 const Options& options, const Context& context);

}  // namespace ballchange
