#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/measure.hpp"
#include "fabric/fall.hpp"
#include "fabric/next_size.hpp"
#include "fabric/sizes.hpp"
#include "fabric/swatch.hpp"

// Swatches and gauges as people write them.
namespace ballchange {

// Yarn of whole rows, edge to edge, turns and all.
struct RowsTaken {
  double rows = 1;
  std::optional<int> stitches;  // in each
  Length yarn;
};

// One swatch as it was told. Its size, counts and the yarn of stitches are in `swatch`; the rest needs more to be
// known.
struct SwatchTold {
  Swatch swatch;
  std::optional<Tool> tool;  // where a size tells
  std::string size_note;     // what a letter was taken for
  std::optional<double> repeat_stitches;
  std::optional<RowsTaken> rows_taken;
  std::optional<Written> used;  // yarn, by the whole swatch
  std::string ball;             // of that one; may be empty
};

// How a swatch is to be read.
struct SwatchTerms {
  Unit bare = Unit::cm;  // of lengths without a unit
  Tool tool = Tool::hook;
  Multiple pattern;  // stitches count in whole ones
};

// "4 mm, 33 st over 15 cm, 24 rows over 14.5 cm, 20 st take 41 cm": pieces in any order, each at most once. Others: "a
// row takes 1.1 m", "a row of 33 st takes 1.1 m", "147 st a repeat", "used 9 m of ball A". Throws Problem(content) that
// starts with `what` and the entry.
[[nodiscard]] SwatchTold parse_swatch(std::string_view text, const SwatchTerms& terms, const std::string& what);

// "22 st", "22 st 18 rows", "20 st over 10 cm"; over 10 cm (4 in where bare lengths are in inches) unless it says.
[[nodiscard]] WantedGauge parse_wanted(std::string_view text, Unit bare, const std::string& what);

}  // namespace ballchange
