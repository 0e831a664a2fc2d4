#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> row_options();
[[nodiscard]] Outcome run_row(const Options& options, Context& context);

}  // namespace ballchange
