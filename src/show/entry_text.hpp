#pragma once
#include <cstddef>
#include <optional>
#include <string>

#include "ledger/entry.hpp"
#include "ledger/state.hpp"
#include "show/text.hpp"
#include "stock/on_balls.hpp"

// Entries of a log and what it adds up to, for people.
namespace ballchange {

// What an entry tells, without its number and time: "ball B, 50.2 g, dye lot 17".
[[nodiscard]] std::string entry_words(const Did& what, Working working);

// "row 40", "round 40, stitch 12".
[[nodiscard]] std::string place_words(const WorkPlace& place, Working working);
// "row 54, stitch 12 or later", of a join whose place is told.
[[nodiscard]] std::string place_words(const JoinState& join, Working working);
// As people call it at a terminal: "outer", "inner".
[[nodiscard]] std::string_view inner_or_outer(BallEnd end);

// The work stands there or further on: at a join whose reading showed no hook.
[[nodiscard]] bool stands_at_least(const State& state);
// "1 row", "12 rounds".
[[nodiscard]] std::string rows_words(long count, Working working);
// More was worked from it than it held, by more than its length may be wrong; the row it reaches to.
[[nodiscard]] std::optional<int> reaches_only(const State& state);

// What is left, by the scale where anything was weighed.
struct LeftShown {
  const State& state;
  const stock::Stock& stock;
  std::optional<double> chance = {};  // that it is enough with the joins to come; nothing where that isn't known
};

// "80 m", by the scale where that ball was weighed; "an unknown length". Its `left` must be known.
[[nodiscard]] std::string left_on_ball(const LeftShown& shown, const BallState& ball, Told told);
// Where the work stands, the yarn on the ball in work and on all, as lines of a screen.
[[nodiscard]] std::string work_lines(const LeftShown& left, Told told, std::size_t columns);
// "13.4 m short, about 12 rows or 1 ball": of the rows planned, joins not counted; empty where it isn't.
[[nodiscard]] std::string short_words(const State& state, const stock::Stock& stock, Told told);
// That a weighing counts as made at a knot which was recorded ahead of the hook, and what to do if it wasn't; empty
// where it doesn't.
[[nodiscard]] std::string weighed_at_knot_line(const State& state, const Weighing& weighing, std::size_t columns);
// The first of them alone, and the second; `enough`: whether it is enough for the rows planned.
[[nodiscard]] std::string stands_line(const State& state, Told told, std::size_t columns);
[[nodiscard]] std::string yarn_line(const LeftShown& left, Told told, std::size_t columns, bool enough);

}  // namespace ballchange
