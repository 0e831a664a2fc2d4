#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> weigh_options();
[[nodiscard]] Outcome run_weigh(const Options& options, Context& context);

}  // namespace ballchange
