#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> weigh_options();
[[nodiscard]] Outcome run_weigh(const Options& options, Context& context);

}  // namespace ballchange
