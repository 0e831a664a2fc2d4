#pragma once
#include <string>
#include <vector>

#include "paper/drawing.hpp"
#include "picture/repeat.hpp"
#include "show/place.hpp"
#include "show/text.hpp"

namespace ballchange {

// What is to be said of a repeat.
struct RepeatOnPaper {
  std::string title, description;     // for who can't see it
  std::vector<std::string> lengths;   // of each section: "80 cm"
  std::vector<std::string> starts;    // its place: "103 cm"
  std::string total;                  // "one repeat 2.76 m"
  std::vector<std::string> alike;     // of each kind of stretches: "plum from 0 cm and plum from 1.83 m"
  std::vector<std::string> chances;   // of each pointer: "85 %"
  std::vector<std::string> pointers;  // in words: "new end: 77 cm into plum (85 %)", those that read the same as one
  Told told = Told::centimetres;
  std::string again = {};  // where the yarn comes round several times within it; otherwise empty
};

// `shown` may be null: no reading.
[[nodiscard]] RepeatOnPaper repeat_words(const Yarn& yarn, const RepeatScene& scene, const PlaceShown* shown,
                                         Told told);
// The repeat as a ring, its first section from the top clockwise, with a tape's ticks around it; or as a bar, in
// several lines where it is long. Each section to scale with its letter, name, length and place; inside, what reads
// alike; a pointer for each place where a loose end may lie, the likeliest bold, over the stretch it may lie in; below,
// the same in words. Adds to the drawing with its upper left corner at (x, y), no wider than `most`, and returns how
// much paper it took.
Sheet draw_repeat_ring(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words, double x, double y,
                       Sheet most);
Sheet draw_repeat_bar(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words, double x, double y,
                      Sheet most);

// So many kinds of stretches, and pointers, are drawn; all are told in words.
inline constexpr std::size_t kAlikeDrawn = 5, kPointersDrawn = 6;
// The mark of a kind of stretches: "a", "b", ...
[[nodiscard]] std::string alike_mark(std::size_t index);
// With more sections than that a table below tells of each; words beside them would lie over each other.
inline constexpr std::size_t kNamedBeside = 20;
inline constexpr double kTableLetters = 2.4;  // mm
// Every section in working order: its swatch and letter, where it begins, its colour, its length where there is room.
// Returns where it ends.
double section_table(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words,
                     const std::vector<Ink>& inks, double y, double width);
// What stands below both: the marks of so many kinds and the pointers in words, the colours by name or that table.
// Returns where it ends.
double repeat_legend(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words,
                     const std::vector<Ink>& inks, double y, double width, std::size_t kinds = kAlikeDrawn);

}  // namespace ballchange
