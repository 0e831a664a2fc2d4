#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> log_options();
[[nodiscard]] Outcome run_log(const Options& options, Context& context);

}  // namespace ballchange
