#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> join_command_options();
[[nodiscard]] Outcome run_join(const Options& options, Context& context);

}  // namespace ballchange
