#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> place_options();
[[nodiscard]] Outcome run_place(const Options& options, Context& context);

}  // namespace ballchange
