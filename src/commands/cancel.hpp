#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> cancel_options();
[[nodiscard]] Outcome run_cancel(const Options& options, Context& context);

}  // namespace ballchange
