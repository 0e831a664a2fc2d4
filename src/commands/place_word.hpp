#pragma once
#include <string_view>

#include "base/measure.hpp"
#include "yarn/repeat.hpp"

namespace ballchange {

// A PLACE as options give it: "rust 26" (26 into rust), "rust" (where it starts), or a length from the start of the
// first section. Throws Problem(content), beginning with `what`, for a colour that comes more than once in the repeat,
// and for a place past the section's or the repeat's end.
[[nodiscard]] Length parse_place(std::string_view text, const Repeat& repeat, const Ruler& ruler,
                                 std::string_view what);

}  // namespace ballchange
