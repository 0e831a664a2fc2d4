#pragma once
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "show/check.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> check_options();
[[nodiscard]] Outcome run_check(const Options& options, Context& context);

// The answer, and how a command with that answer ends.
Outcome tell_check(const CheckShown& shown, const Context& context, const Common& common, Told told);

}  // namespace ballchange
