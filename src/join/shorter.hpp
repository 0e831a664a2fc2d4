#pragma once
#include "join/advice.hpp"

// A yarn whose repeat was written down several times over: an end may have been placed on any of the equal places, so
// both are told on the shorter repeat.
namespace ballchange::joining {

[[nodiscard]] Strand on_shorter(const Repeat& written, const Repeat& shorter, const Strand& strand);

}  // namespace ballchange::joining
