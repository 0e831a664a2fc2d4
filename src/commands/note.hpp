#pragma once
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> note_options();
[[nodiscard]] Outcome run_note(const Options& options, Context& context);

}  // namespace ballchange
