#pragma once
#include <vector>

#include "paper/drawing.hpp"
#include "picture/fabric.hpp"
#include "picture/inks.hpp"

// The letters of the colours in a piece, so that nothing is told by its shade alone.
namespace ballchange {

// Part of a row on paper, in mm from the piece's upper left corner.
struct PaperBox {
  double left, top, right, bottom;
};
// `scale`: mm for a cm of fabric. Edges are rounded, not sizes, so that neighbours share them.
[[nodiscard]] PaperBox on_paper(const FabricScene& scene, const FabricBox& box, double scale);

// Every colour that shows in the piece gets one at least, short ones too.
void draw_fabric_letters(Drawing& drawing, const FabricScene& scene, const std::vector<Ink>& inks, double scale);

}  // namespace ballchange
