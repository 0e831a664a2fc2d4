#pragma once
#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> estimate_options();
[[nodiscard]] Outcome run_estimate(const Options& options, Context& context);

}  // namespace ballchange
