#pragma once
#include <cstddef>
#include <string>

#include "project/record.hpp"

namespace ballchange {

// What became of the joins that the new entries passed, working on or ravelling back, a line each.
[[nodiscard]] std::string join_lines(const Recorded& recorded, std::size_t columns);

}  // namespace ballchange
