#pragma once
#include <string>
#include <vector>

#include "console/context.hpp"

namespace ballchange {

// How the process ends; man ballchange lists them.
struct Exit {
  static constexpr int done = 0, file = 1, content = 2, settles_nothing = 3, interrupted = 130;
};

// Runs one command line, without the program's name; the one place that turns results and problems into exit codes.
// A problem is complained of, never thrown.
[[nodiscard]] int run_command_line(const std::vector<std::string>& arguments, Context& context);

}  // namespace ballchange
