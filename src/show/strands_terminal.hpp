#pragma once
#include <string>

#include "picture/strands.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

namespace ballchange {

// Both strands as a few lines of text: colours as blocks where the screen has them, otherwise names with a fill of
// their own each; what is cut off hatched, the overlap and what was not measured marked, a scale below. Empty where the
// screen is too narrow to show anything (under 40 columns).
[[nodiscard]] std::string strands_text(const StrandsScene& scene, const Screen& screen, Told told);

}  // namespace ballchange
