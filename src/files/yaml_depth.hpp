#pragma once
#include <cstddef>
#include <optional>
#include <string_view>

namespace ballchange {

// Where the bracket stands that opens level `most` + 1 of brackets alone, before anything else has read the text.
// Quoted texts, remarks, plain and block texts are passed over.
[[nodiscard]] std::optional<std::size_t> bracket_too_deep(std::string_view text, std::size_t most);

}  // namespace ballchange
