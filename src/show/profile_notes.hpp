#pragma once
#include <optional>
#include <string>
#include <vector>

#include "yarn/yarn.hpp"

namespace ballchange {

// What is worth knowing about this yarn before reading it, in whole sentences.
[[nodiscard]] std::vector<std::string> profile_notes(const Yarn& yarn);

// "no shade was told for cream and ink, so they are drawn in grey: ...", for a picture; nothing where every colour has
// one, or a name that says it.
[[nodiscard]] std::optional<std::string> unshaded_note(const std::vector<Colour>& colours);

}  // namespace ballchange
