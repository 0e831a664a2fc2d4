#pragma once
#include <string>

#include "picture/fabric.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

namespace ballchange {

// The piece in lines of text, row 1 at the bottom: colours as blocks where the screen has them, otherwise a letter
// each; what isn't worked yet dimmed, or in small letters; balls and rows at the left, joins at the right, the colours'
// names below. Empty where the screen is too narrow to show anything (under 40 columns).
[[nodiscard]] std::string fabric_text(const FabricScene& scene, const Screen& screen);

}  // namespace ballchange
