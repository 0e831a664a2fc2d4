#include "commands/table.hpp"

#include <algorithm>
#include <array>

#include "commands/check.hpp"
#include "commands/help.hpp"
#include "commands/place.hpp"

namespace ballchange {
namespace {

constexpr std::array<std::string_view, 2> kCheckUsage{
    "--yarn PROFILE --old READING --new READING [options]",
    "--whole \"plum 84\" --old READING --new READING [options]",
};
constexpr std::array<std::string_view, 1> kPlaceUsage{"--yarn PROFILE --old READING | --new READING [options]"};
constexpr std::array<std::string_view, 1> kHelpUsage{"[COMMAND]"};

constexpr std::array<CommandRow, 3> kCommands{{
    {"check", "at a ball change or a knot: whether, where and how to cut both ends", kCheckUsage, Needs::yarn,
     check_options, run_check},
    {"place", "where one reading lies on the repeat", kPlaceUsage, Needs::yarn, place_options, run_place},
    {"help", "this overview, or the options of one command", kHelpUsage, Needs::nothing, help_options, run_help, 1},
}};

}  // namespace

std::span<const CommandRow> commands() { return kCommands; }

const CommandRow* command_named(std::string_view name) {
  const auto* found =
      std::find_if(kCommands.begin(), kCommands.end(), [name](const CommandRow& row) { return row.name == name; });
  return found == kCommands.end() ? nullptr : found;
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const CommandRow& row : kCommands) names.emplace_back(row.name);
  return names;
}

}  // namespace ballchange
