#pragma once
#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> draw_options();
[[nodiscard]] Outcome run_draw(const Options& options, Context& context);

}  // namespace ballchange
