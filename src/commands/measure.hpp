#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> measure_options();
[[nodiscard]] Outcome run_measure(const Options& options, Context& context);

}  // namespace ballchange
