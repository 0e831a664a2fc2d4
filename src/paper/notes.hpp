#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "paper/drawing.hpp"

namespace ballchange {

// Words above (or below) points of a line: each beside a pole that stands on its point, in as many rows as keep them
// apart.
struct PointNote {
  double at = 0;  // of the point
  std::string words;
  bool heavy = false;
  // What is told at least, and the part of the words that may be cut short before they come to that: numbers and units
  // stand whole or not at all. Nothing: words are cut from their end.
  std::string least = {}, name = {};
};
// Its words as they fit, in mm.
[[nodiscard]] std::string fitted_words(const PointNote& note, double room);
struct PlacedNote {
  PointNote note;
  double left = 0, width = 0;
  std::size_t row = 0;   // 0: nearest to the points
  bool ends_at = false;  // stands before its pole and ends at it, however wide the letters turn out
};
// Within 0 .. room; those that come first nearest, where no pole then crosses words; otherwise in more rows, in any
// order. Words keep off `poles` that pass all of them.
[[nodiscard]] std::vector<PlacedNote> placed_notes(const std::vector<PointNote>& notes, double room,
                                                   const std::vector<double>& poles = {});
[[nodiscard]] std::size_t rows_of(const std::vector<PlacedNote>& notes);
// With their poles, from an edge up (`away` -1) or down (1); the first row lies `nearest` from it.
void draw_notes(Drawing& drawing, const std::vector<PlacedNote>& notes, double edge, double nearest, double away);

}  // namespace ballchange
