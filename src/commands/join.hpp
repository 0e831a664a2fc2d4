#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> join_command_options();
[[nodiscard]] Outcome run_join(const Options& options, Context& context);

}  // namespace ballchange
