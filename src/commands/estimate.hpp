#pragma once
#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> estimate_options();
[[nodiscard]] Outcome run_estimate(const Options& options, Context& context);

}  // namespace ballchange
