#pragma once
#include <string>

#include "picture/repeat.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

namespace ballchange {

// The repeat as a bar in as many lines as its sections need: above each line a pointer with its chance for each place
// where a loose end may lie, the likeliest `V`, below it where each section begins; then a scale. Empty where the
// screen is too narrow to show anything (under 40 columns).
[[nodiscard]] std::string repeat_text(const RepeatScene& scene, const Screen& screen, Told told);

}  // namespace ballchange
