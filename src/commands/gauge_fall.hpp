#pragma once
#include "console/context.hpp"
#include "console/options.hpp"
#include "fabric/fall.hpp"

// gauge where it is asked how the colours will fall; it then records nothing.
namespace ballchange {

[[nodiscard]] const OptionGroup& fall_options();
[[nodiscard]] bool asks_how_colours_fall(const Options& options);
Outcome run_fall(const Options& options, Context& context);

}  // namespace ballchange
