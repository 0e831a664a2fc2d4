#pragma once
#include <string>
#include <vector>

#include "commands/table.hpp"
#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

// What the program is for and its commands.
[[nodiscard]] std::string overview();

// Throws Problem(content): there is no such command.
[[noreturn]] void refuse_command_name(const std::string& name);

[[nodiscard]] std::vector<OptionGroup> help_options();
[[nodiscard]] Outcome run_help(const Options& options, Context& context);

}  // namespace ballchange
