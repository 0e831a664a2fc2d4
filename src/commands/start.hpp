#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> start_options();
[[nodiscard]] Outcome run_start(const Options& options, Context& context);

}  // namespace ballchange
