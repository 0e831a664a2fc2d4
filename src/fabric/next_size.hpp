#pragma once
#include <optional>
#include <span>

#include "fabric/sizes.hpp"
#include "fabric/swatch.hpp"

// The hook or needle to try next, for a gauge that is wanted.
//
// A thicker tool makes wider stitches and taller rows. Between two sizes that were swatched, the logarithm of the width
// is interpolated along that of the size (where noise makes a thicker tool come out narrower, both stand as one).
// Beyond them it goes on with a slope e = d ln(width) / d ln(size): the least squares line through all sizes, held to
// 0.5 give or take 0.25, which is what one size alone is taken by: a tool thicker by a tenth makes stitches wider by a
// twentieth, half a millimetre about one stitch in 10 cm at 4 mm and 20 stitches (common practice, no source). Farther
// than half as thick again, or two thirds as thick, nothing is promised: the fabric would not be the same any more.
namespace ballchange {

struct WantedGauge {
  std::optional<Length> stitch, row;  // width, height
};

// What one size is expected to give.
struct ExpectedGauge {
  ToolSize size;
  std::optional<GaugeMean> stitch, row;  // as far as swatched and wanted
};

enum class Reach {
  keep,        // a size that was swatched gives it
  try_next,    // another one should
  at_odds,     // the stitches want one size, the rows another
  no_size,     // none that is sold comes near enough
  out_of_yarn  // only one farther from those swatched than this yarn goes
};

struct NextSize {
  Reach reach = Reach::keep;
  std::optional<double> stitches_at_mm, rows_at_mm;  // where each would be met, were such a size sold
  std::optional<ExpectedGauge>
      best;  // nearest to all that is wanted, of those this yarn goes to; at odds: to the stitches
  std::optional<ExpectedGauge> for_stitches, for_rows;  // nearest for each alone
};
// Met is what is expected within half a stitch or row in 10 cm, or as near as the nearest swatches tell it. A size that
// was swatched and comes within that half is kept. Needs stitches counted at a size where stitches are wanted, rows
// where rows are: asserted, as is that anything is wanted.
[[nodiscard]] NextSize next_size(std::span<const SizeGauge> gauges, Tool tool, const WantedGauge& wanted);

}  // namespace ballchange
