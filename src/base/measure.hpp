#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/length.hpp"

// Lengths and masses as people write them: "3 1/2in", "1yd 6in", "14 st", "50.2 g".
// Exact factors: 1 in = 2.54 cm, 1 yd = 0.9144 m, 1 lb = 453.59237 g (NIST Handbook 44, App. C).
namespace ballchange {

// Each has its row in measure.cpp, in this order.
enum class Unit { mm, cm, m, in, ft, yd, st };

[[nodiscard]] std::string_view unit_name(Unit unit);
[[nodiscard]] std::size_t count_of_units();
// Of the inch and its kin, as against the centimetre's; a stitch is of neither.
[[nodiscard]] bool imperial(Unit unit);
// "in" -> Unit::in; nothing for a word that is no unit. Case is ignored.
[[nodiscard]] std::optional<Unit> unit_named(std::string_view word);

// A length as written. A compound ("1yd 6in") is held in its last, finest unit (42 in).
struct Written {
  double number = 0;
  Unit unit = Unit::cm;
};

// How written lengths become yarn: what a bare number means, and how long a stitch is.
struct Ruler {
  Unit bare = Unit::cm;                   // unit of a number without one
  std::optional<Length> yarn_per_stitch;  // for "st"; unknown: lengths in st are refused
  bool in_stitches = false;               // the yarn is reckoned in stitches: st taken as they are, all else refused
  // What a message asks for where the yarn per stitch would help; who knows a way to type it puts it here.
  std::string_view ask_for_stitch = "tell the yarn per stitch";
};

// Reads one length; bare is the unit of a number without one. Negative numbers, decimal commas, exponents,
// unknown units and trailing words are refused. Throws Problem(content) whose message starts with `what`
// ("allowance: ...") and says what would be right.
[[nodiscard]] Written parse_written(std::string_view text, Unit bare, std::string_view what);
// The same for a mass: g (bare), kg, oz, lb.
[[nodiscard]] Mass parse_mass(std::string_view text, std::string_view what);
// "95 %", "95%" or "0.95"; the result is a share, 0.95. Throws Problem(content) outside [0, 1]; `range` says which
// shares the caller takes.
[[nodiscard]] double parse_share(std::string_view text, std::string_view what,
                                 std::string_view range = "0 % to 100 %, like 95 % or 0.95");
// "0.5 cm + 1 %", "0.5cm", "2 %": a tape's error, a fixed part and a share of the length.
struct Tape {
  Length fixed = 0.5_cm;
  double share = 0.01;
};
[[nodiscard]] Tape parse_tape(std::string_view text, const Ruler& ruler, std::string_view what);

// Turns a written length into yarn. Throws Problem(content) for stitches with no yarn per stitch known, and for
// anything but stitches when the yarn is reckoned in stitches.
[[nodiscard]] Length to_length(const Written& written, const Ruler& ruler, std::string_view what);
[[nodiscard]] Length parse_length(std::string_view text, const Ruler& ruler, std::string_view what);

// The step somebody writes in: the largest of 1, 1/2, 1/4, 1/8, 0.1 that divides every number (a stitch: 1);
// 0 where none does. All numbers are of one unit.
[[nodiscard]] double written_step(std::span<const double> numbers, Unit unit);
// One unit in cm (or in stitches for st when the ruler reckons so).
[[nodiscard]] Length unit_length(Unit unit, const Ruler& ruler);

}  // namespace ballchange
