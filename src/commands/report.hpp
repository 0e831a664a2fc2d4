#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> report_options();
[[nodiscard]] Outcome run_report(const Options& options, Context& context);

}  // namespace ballchange
