#pragma once
#include <string>

#include "paper/drawing.hpp"
#include "picture/fabric.hpp"
#include "show/text.hpp"

namespace ballchange {

// A piece to be drawn, and what is to be said of it.
struct FabricOnPaper {
  FabricScene scene;
  std::string title, description;  // for who can't see it
  std::string heading;             // above it; may be empty
  Length soft;                     // of fabric along a row, over which one colour gives way to the next
  Told told = Told::centimetres;
  bool sized = true;     // cm of fabric are real ones: a scale can be told
  std::string key = {};  // begins the names of its fills: another for each piece in one drawing
};

// "60 stitches, 1 row".
[[nodiscard]] std::string fabric_size(const FabricScene& scene);

// The piece to scale, at most `most` large with its margins (higher where more colours are to be named than that
// holds): rows from below, what isn't worked yet paler, joins and balls beside their rows, a scale, the colours by
// name. Adds to the drawing with its upper left corner at (x, y), and returns how much paper it took.
Sheet draw_fabric(Drawing& drawing, const FabricOnPaper& piece, double x, double y, Sheet most);

}  // namespace ballchange
