#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> rip_options();
[[nodiscard]] Outcome run_rip(const Options& options, Context& context);

}  // namespace ballchange
