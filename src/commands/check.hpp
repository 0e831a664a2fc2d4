#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> check_options();
[[nodiscard]] Outcome run_check(const Options& options, Context& context);

}  // namespace ballchange
