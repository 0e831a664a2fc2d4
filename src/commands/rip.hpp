#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> rip_options();
[[nodiscard]] Outcome run_rip(const Options& options, Context& context);

}  // namespace ballchange
