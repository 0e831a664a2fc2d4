#pragma once
#include <cstddef>
#include <optional>
#include <string>

#include "creep/follow.hpp"
#include "creep/stretch.hpp"
#include "ledger/state.hpp"
#include "show/json.hpp"
#include "show/text.hpp"

// How far the colours creep in a work, with what mends it, and what joined sections really made.
namespace ballchange {

// Another size of the hook or needles in use, that would take a stitch's yarn back to the gauge.
struct OtherSize {
  double from_mm = 0, to_mm = 0;
  bool needle = false;
};

struct CreepShown {
  const State& state;
  std::optional<creeping::Creep> creep;  // nothing where no change was ever seen
  Length shows_from;                     // along a repeat
  std::optional<OtherSize> size;
  std::string path;  // of the project
};

// Yarn per stitch, creep and what mends it, as lines of a screen; empty where nothing can be told yet.
[[nodiscard]] std::string creep_lines(const CreepShown& shown, Told told, std::size_t columns);
// Balls whose repeat is longer or shorter, by what was seen of it.
[[nodiscard]] std::string longer_balls_lines(const CreepShown& shown, Told told, std::size_t columns);
// What was made of the changes that were told by entries from `entry` on, and the joins whose shift they correct.
[[nodiscard]] std::string seen_lines(const CreepShown& shown, int entry, Told told, std::size_t columns);
// "its repeat is about 3 % longer than the yarn's: colours come 8 cm (4 stitches) a repeat late." `stitch`: its yarn,
// where that is known.
[[nodiscard]] std::string longer_text(const creeping::Share& longer, Length repeat, std::optional<Length> stitch,
                                      Told told);
// The same by a reading; where that is unusual, as it was read, and how to be sure of it.
[[nodiscard]] std::string longer_text(const creeping::Longer& longer, Length repeat, std::optional<Length> stitch,
                                      Told told);

void creep_members(Json& json, const CreepShown& shown);  // creep, counted

}  // namespace ballchange
