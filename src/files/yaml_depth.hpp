#pragma once
#include <cstddef>
#include <optional>
#include <string_view>

namespace ballchange {

// Where the bracket stands that opens level `most` + 1, before anything else has read the text. What brackets lie in
// without brackets counts as one level.
// Quoted texts, remarks, plain and block texts are passed over.
[[nodiscard]] std::optional<std::size_t> bracket_too_deep(std::string_view text, std::size_t most);

}  // namespace ballchange
