#pragma once
#include <optional>
#include <string_view>

#include "base/length.hpp"

// How finely a scale tells masses, by the way they are written.
namespace ballchange {

// 50 g -> 1 g, 50.2 g -> 0.1 g, 1 3/4 oz -> 1/4 oz: the coarsest step of a usual scale that divides it; 1 g where none
// does.
[[nodiscard]] Mass step_of(Mass written);

// What noughts at the end of a typed mass say and its value does not: 50.0 g -> 0.1 g; nothing where it says no more.
// Throws Problem(content) for what is no mass.
[[nodiscard]] std::optional<Mass> step_typed(std::string_view mass);

// What a rounded mass is uncertain by, one standard deviation: step / sqrt(12), a rounding being even within the step.
[[nodiscard]] Mass rounding_of(Mass step);

}  // namespace ballchange
