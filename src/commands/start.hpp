#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> start_options();
[[nodiscard]] Outcome run_start(const Options& options, Context& context);

}  // namespace ballchange
