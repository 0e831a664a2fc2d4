#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ballchange {

// The text made printable, on one line of at most 76 columns around byte `at`, and a second line with a caret under
// that byte. at <= text.size().
[[nodiscard]] std::vector<std::string> caret_lines(std::string_view text, std::size_t at);

}  // namespace ballchange
