#pragma once
#include <optional>
#include <string_view>

#include "base/length.hpp"

// Where the work stands and how much yarn a stitch takes.
namespace ballchange {

enum class Working { rows, rounds, turned_rounds };
// What people call a row of it.
[[nodiscard]] constexpr std::string_view row_word(Working working) {
  return working == Working::rows ? "row" : "round";
}

// `row: R, stitch: S`: S stitches of row R are done. Both count from 1; stitch 0 is the row's beginning.
struct RowStitch {
  int row = 1;
  int stitch = 0;
};

// Yarn one stitch takes, at least and at most; whatever is told or measured outside of it is a slip.
inline constexpr Length kLeastStitch = 0.01_cm, kMostStitch = 1000_cm;
inline constexpr std::string_view kStitchTakes = "from 0.1 mm to 10 m";
[[nodiscard]] constexpr bool can_be_stitch(Length yarn) { return yarn >= kLeastStitch && yarn <= kMostStitch; }
// Stitches or rows in 10 cm: a stitch of a metre, and of a tenth of a millimetre.
inline constexpr double kLeastIn10cm = 0.1, kMostIn10cm = 1000;
inline constexpr std::string_view kIn10cm = "from 0.1 to 1000";
[[nodiscard]] constexpr bool can_be_in_10cm(double count) { return count >= kLeastIn10cm && count <= kMostIn10cm; }

struct Fabric {
  Working working = Working::rows;
  std::optional<Length> yarn_per_stitch;  // w
  Length yarn_per_turn;                   // v
  std::optional<int> stitches;            // S, stitches in a row
};

// Where the work stands after `yarn` more has been used from `hook` on, at most a thousand million rows on. Without S
// the row stays and the stitches count on. Needs yarn_per_stitch: asserted.
[[nodiscard]] RowStitch landing(const Fabric& fabric, RowStitch hook, Length yarn);

// Stitches that so much yarn makes, of which the first lies `from` past the beginning of a row (less than nothing:
// before it). A turn makes none. Needs yarn_per_stitch and stitches: asserted.
[[nodiscard]] double stitches_made(const Fabric& fabric, Length from, Length yarn);
// The other way round: the least that makes so many, what is left of a turn to begin with counted too.
[[nodiscard]] Length yarn_made(const Fabric& fabric, Length from, double stitches);

}  // namespace ballchange
