#pragma once
#include <optional>
#include <string>
#include <vector>

#include "show/fall.hpp"

// Which widths and sizes of hook or needle are worth telling of.
namespace ballchange {

inline constexpr int kMostStitches = 2000;

// Has the look, and about the height, that are wanted; any look where none is.
[[nodiscard]] bool is_wanted(const Fall& one, const FallShown& shown);
[[nodiscard]] bool any_wanted(const FallShown& shown);  // of the widths

// Fills shown.widths, and what is nearest where there are none. Throws Problem(content) where the pattern allows no
// width of the range. shown.low > 0.
void take_falls(FallShown& shown);

// The nearest width below, and above, that is wanted, down to half as wide and up to twice; beside one that 1 % of yarn
// spoils also a steadier neighbour.
[[nodiscard]] std::vector<Fall> nearest_outside(const FallShown& shown, int low, int high);
// Within a fifth of the stitches in mind, rather one that 1 % of yarn doesn't spoil.
[[nodiscard]] std::optional<Fall> nearest_width(const FallShown& shown, int stitches);
// The nearest size, like "4 mm" or "hook G", that makes the same stitches fall as is wanted.
[[nodiscard]] std::optional<WidthInMind::Size> other_size(const FallShown& shown, const std::string& text,
                                                          int stitches);

}  // namespace ballchange
