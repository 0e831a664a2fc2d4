#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "console/context.hpp"
#include "console/options.hpp"

// The commands, one row each: the list, the help, the manual's check and "did you mean" all come from here.
namespace ballchange {

struct CommandRow {
  std::string_view name;
  std::string_view help;                    // one line
  std::span<const std::string_view> usage;  // what may follow the name, one line each
  std::vector<OptionGroup> (*options)();
  Outcome (*run)(const Options& options, Context& context);
  std::size_t words = 0;        // at most so many words besides options
  std::string_view notes = {};  // what else its help tells, lines of at most 60 columns
};

[[nodiscard]] std::span<const CommandRow> commands();
[[nodiscard]] const CommandRow* command_named(std::string_view name);
[[nodiscard]] std::vector<std::string> command_names();

}  // namespace ballchange
