#pragma once
#include <optional>
#include <string_view>

#include "console/context.hpp"
#include "console/options.hpp"
#include "fabric/fall.hpp"

// gauge where it is asked how the colours will fall; it then records nothing.
namespace ballchange {

[[nodiscard]] const OptionGroup& fall_options();
[[nodiscard]] bool asks_how_colours_fall(const Options& options);
Outcome run_fall(const Options& options, Context& context);

// A number above 0 and up to 1000. Throws Problem(content).
[[nodiscard]] std::optional<double> count_in_10cm(const Options& options, std::string_view name);
// --multiple "4+1". Throws Problem(content).
[[nodiscard]] Multiple multiple_option(const Options& options);

}  // namespace ballchange
