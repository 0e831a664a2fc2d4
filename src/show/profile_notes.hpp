#pragma once
#include <string>
#include <vector>

#include "yarn/yarn.hpp"

namespace ballchange {

// What is worth knowing about this yarn before reading it, in whole sentences.
[[nodiscard]] std::vector<std::string> profile_notes(const Yarn& yarn);

}  // namespace ballchange
