#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> ball_options();
[[nodiscard]] Outcome run_ball(const Options& options, Context& context);

}  // namespace ballchange
