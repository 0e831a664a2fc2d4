#pragma once
#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> order_options();
[[nodiscard]] Outcome run_order(const Options& options, Context& context);

}  // namespace ballchange
