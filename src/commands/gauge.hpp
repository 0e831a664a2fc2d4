#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> gauge_options();
[[nodiscard]] Outcome run_gauge(const Options& options, Context& context);

}  // namespace ballchange
