#pragma once
#include <vector>

#include "commands/context.hpp"
#include "commands/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> note_options();
[[nodiscard]] Outcome run_note(const Options& options, Context& context);

}  // namespace ballchange
