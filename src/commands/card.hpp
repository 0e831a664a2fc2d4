#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> card_options();
[[nodiscard]] Outcome run_card(const Options& options, Context& context);

}  // namespace ballchange
