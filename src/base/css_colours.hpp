#pragma once
#include <optional>
#include <string_view>

#include "base/shade.hpp"

namespace ballchange {

// The named colours of CSS Color Module Level 4, section 6.1 (www.w3.org/TR/css-color-4); the name in lower case.
[[nodiscard]] std::optional<Shade> css_colour(std::string_view name);

}  // namespace ballchange
