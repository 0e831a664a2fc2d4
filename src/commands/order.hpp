#pragma once
#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> order_options();
[[nodiscard]] Outcome run_order(const Options& options, Context& context);

}  // namespace ballchange
