#pragma once
#include <string_view>
#include <vector>

#include "base/measure.hpp"
#include "yarn/repeat.hpp"

namespace ballchange {

// A PLACE as options give it: "2 before rust ends", "5 after rust begins", "rust begins", "at rust", "rust", "rust
// ends", "rust 26", or a length from the start of the first section. More than one where the colour comes more than
// once. Throws Problem(content) that starts with `what`, also for a place past the section's or the repeat's end.
[[nodiscard]] std::vector<Length> parse_places(std::string_view text, const Repeat& repeat, const Ruler& ruler,
                                               std::string_view what);
// The one place that is meant; several are refused.
[[nodiscard]] Length parse_place(std::string_view text, const Repeat& repeat, const Ruler& ruler,
                                 std::string_view what);

}  // namespace ballchange
