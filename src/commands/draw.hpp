#pragma once
#include <string_view>
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> all_draw_options();
// Those of one picture, "repeat"; of all where that is none.
[[nodiscard]] std::vector<OptionGroup> draw_options(std::string_view picture);
[[nodiscard]] Outcome run_draw(const Options& options, Context& context);

}  // namespace ballchange
