#pragma once
#include <vector>

#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"

namespace ballchange {

[[nodiscard]] std::vector<OptionGroup> place_options();
[[nodiscard]] Outcome run_place(const Options& options, Context& context);

// What a reading is placed on: a project's yarn, or --yarn.
struct Placeable {
  Yarn yarn;
  Measures measures;
};
[[nodiscard]] const OptionGroup& placing_group();  // yarn, old, new
// `needs` begins the message where neither is told. Throws Problem.
[[nodiscard]] Placeable what_to_place_on(const Options& options, const Context& context, const Common& common,
                                         std::string_view needs);

}  // namespace ballchange
