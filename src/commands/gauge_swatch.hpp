#pragma once
#include "console/context.hpp"
#include "console/options.hpp"

// gauge where swatches are told; it records only with --record.
namespace ballchange {

[[nodiscard]] const OptionGroup& swatch_options();
// --swatch, or an option that goes only with it.
[[nodiscard]] bool tells_swatches(const Options& options);
Outcome run_swatches(const Options& options, Context& context);

}  // namespace ballchange
