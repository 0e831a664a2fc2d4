#pragma once
#include <optional>

#include "paper/lettering.hpp"
#include "paper/strands.hpp"

namespace ballchange {

// Where two strands lie on paper, and what reaches from one to the other. All in mm.
struct BetweenStrands {
  std::optional<PaperSpan> overlap, fit;  // nothing where there is none
  double top = 0, old_foot = 0;           // of the old strand
  double new_top = 0, foot = 0;           // of the new strand
  double width = 0;                       // of the picture
};

// The overlap, over both strands, and the dry fit's line, between the changes that it is told by. Their words stand
// between the strands, where no line crosses them. The overlap's ground goes under the strands: before them.
void draw_overlap(Drawing& drawing, const BetweenStrands& between, const StrandsOnPaper& words);
void draw_dry_fit(Drawing& drawing, const BetweenStrands& between, const StrandsOnPaper& words);

}  // namespace ballchange
