#pragma once
#include <cstddef>
#include <string_view>

namespace ballchange {

// Where an empty list item stands, of which yaml-cpp tells the place of what comes after it: its dash. Otherwise
// `next`, as where it is written out, - null.
[[nodiscard]] std::size_t empty_item(std::string_view text, std::size_t next);

}  // namespace ballchange
