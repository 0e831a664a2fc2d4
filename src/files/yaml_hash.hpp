#pragma once
#include <cstddef>
#include <optional>
#include <string_view>

namespace ballchange {

// Where a # cuts off what a bracket still needs, {shade: #5b2a59, length: 92 cm}, or one opened on an earlier line; of
// the brackets that are open at the end of the line that holds `at`. A # that begins a remark is none.
[[nodiscard]] std::optional<std::size_t> hiding_hash(std::string_view text, std::size_t at);

}  // namespace ballchange
