#pragma once
#include <string>

#include "show/card.hpp"

// Yarn drawn at true size, to lay yarn on: for this a page must be printed at 100 %.
namespace ballchange {

// A section between its neighbours with two rulers, above from its start (used on the old end), below from its end
// (leave on the new one), where a join may lie marked on both; then its overlap as a bar. Broken into numbered lengths
// of 15 cm (6 in) below each other. Not for a yarn reckoned in stitches: asserted.
[[nodiscard]] std::string strip_svg(const CardShown& shown, const LongSection& section, Told told);
// How many lengths that makes; a strip of more than kMostLengths is of no use.
[[nodiscard]] std::size_t strip_lengths(const LongSection& section, Told told);
inline constexpr std::size_t kMostLengths = 20;
// A line of 10 cm (4 in) that says so.
[[nodiscard]] std::string check_line_svg(Told told);

}  // namespace ballchange
