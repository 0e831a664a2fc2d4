#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "base/length.hpp"

// The gauge from swatches, and how well it is known.
//
// A count c over a measured length x makes a stitch x/c wide. Three things blur that, as one standard deviation:
//   counting  up to half a stitch at each edge, evenly: sqrt(2) 0.5 / sqrt(3) = 0.41 stitches, a share 0.41/c
//   tape      up to 0.25 cm at each end, evenly: 0.2 cm, a share 0.2/x; along yarn 0.5 cm + 1 %, as for readings
//   hands     s, from one swatch to the next at one size: 2 % (common practice, no source), counted as four swatches
//             beside those that were repeated at one size, which tell it for these hands
// At one size the mean of the swatches, each weighed by 1/(counting^2 + tape^2 + s^2); rows and yarn likewise. "Give or
// take" holds nine times in ten. It stops being true for swatches counted over their edges, and for fabric that will
// be washed or stretched otherwise than the swatch was: both shift every count the same way.
namespace ballchange {

struct Counted {  // stitches over a width, or rows over a height
  double count = 0;
  Length over;
};

// The yarn that so many stitches took; `doubt` is one deviation of it.
struct YarnTold {
  double stitches = 0;
  Length yarn;
  Length doubt;
};
[[nodiscard]] YarnTold yarn_of_stitches(double stitches, Length yarn);     // measured before working
[[nodiscard]] YarnTold yarn_of_rows(double stitches_in_all, Length yarn);  // from edge to edge: nothing miscounted
[[nodiscard]] YarnTold yarn_of_repeat(double stitches, Length repeat, Length doubt);

struct Swatch {
  std::optional<double> mm;  // hook or needle
  std::optional<Counted> stitches, rows;
  std::vector<YarnTold> yarn;
};

// The width of a stitch, the height of a row or the yarn in a stitch.
struct GaugeMean {
  Length mean;
  double share = 0;  // of it, one deviation

  [[nodiscard]] double in_10cm() const { return 10 / mean.cm(); }
  // Nine times in ten within so much, of the length and of the count in 10 cm.
  [[nodiscard]] Length give_or_take() const;
  [[nodiscard]] double give_or_take_in_10cm() const;
};

struct SizeGauge {
  std::optional<double> mm;  // not told: those swatches stand together
  int swatches = 0;
  std::optional<GaugeMean> stitch, row, yarn;
};
// One for each size, from thin to thick, those of no size told first. Counts and lengths are > 0: asserted.
[[nodiscard]] std::vector<SizeGauge> gauges(std::span<const Swatch> swatches);

// Two swatches that no hands and no change of the tool explain: their widths (or heights, or yarn) lie farther apart
// than a fifth, with what measuring blurs and a tool thicker by a tenth does (a twentieth, give or take 7.5 %; see
// next_size.hpp) allowed for besides.
struct Disagreement {
  std::size_t one = 0, other = 0;  // which of the swatches, one < other
  std::optional<Counted> Swatch::*which = nullptr;
};
// The two farthest apart; nothing where all may be right. Swatches whose size is not told are set against each other
// only.
[[nodiscard]] std::optional<Disagreement> disagreement(std::span<const Swatch> swatches);

// How well the stitches at a size would be known with its widest swatch twice as wide, or with one more like it.
struct Sharper {
  Length wider;  // that width
  GaugeMean with_wider, with_another;
};
// Nothing where no stitches were counted at that size.
[[nodiscard]] std::optional<Sharper> sharper(std::span<const Swatch> swatches, std::optional<double> mm);

}  // namespace ballchange
