#pragma once
#include <string>

#include "paper/drawing.hpp"
#include "picture/strands.hpp"
#include "show/check.hpp"
#include "show/text.hpp"

namespace ballchange {

// What is to be said of both strands.
struct StrandsOnPaper {
  std::string title, description;  // for who can't see it
  std::string old_name, new_name;  // "Old strand, from the work", "New strand, ball C"
  std::string old_mark, new_mark;  // at the cut: "cut 58 cm before rust ends"; empty where nothing comes off
  std::string old_trim, new_trim;  // in what comes off: "48 cm"
  std::string overlap;             // "8 cm, felted"
  std::string fit;                 // "dry fit 80 cm"
  std::string left_out;            // "1.9 m left out"
  Told told = Told::centimetres;
  std::string shift = {};  // "The colours skip 2 cm."; empty where they run on
};

// In the words of the advice, for one of its joins whose scene is known.
[[nodiscard]] StrandsOnPaper strands_words(const CheckShown& shown, const Join& join, const StrandsScene& scene,
                                           Told told);

// Both strands along one axis, as they will be joined: what was measured solid, what the repeat has next paler, what
// comes off hatched, each change of colour as soft as its place is doubtful; the overlap, the cuts, the dry fit; below
// them a scale and the colours by name. Adds to the drawing with its upper left corner at (x, y), no wider than
// `most`, and returns how much paper it took.
Sheet draw_strands(Drawing& drawing, const StrandsScene& scene, const StrandsOnPaper& words, double x, double y,
                   Sheet most);

}  // namespace ballchange
