#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> measure_options();
[[nodiscard]] Outcome run_measure(const Options& options, Context& context);

}  // namespace ballchange
