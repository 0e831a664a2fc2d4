#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> row_options();
[[nodiscard]] Outcome run_row(const Options& options, Context& context);

}  // namespace ballchange
