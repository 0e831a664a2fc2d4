#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> ball_options();
[[nodiscard]] Outcome run_ball(const Options& options, Context& context);

}  // namespace ballchange
