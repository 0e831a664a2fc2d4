#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reading/reading.hpp"

namespace ballchange {

// What keeps a reading on record from ever being read, as parse_reading tells it; nothing where it can be. Stitches are
// no fault while the yarn they take isn't known: that may be told later.
[[nodiscard]] std::optional<std::string> reading_fault(std::string_view text, End end, std::vector<Colour> colours,
                                                       Ruler ruler, std::string_view what);

}  // namespace ballchange
