#pragma once
#include <optional>
#include <string>
#include <vector>

#include "project/project.hpp"
#include "show/check.hpp"

// What the strand in hand says against the record of a project.
namespace ballchange {

// A few rows may have been worked since, and nobody told.
inline constexpr int kRowsUnrecorded = 2;

// Where the old end is in hand, the ball is nearly finished; by the record it is not, by more than its length may be
// wrong and two rows. The work has gone on since, or it is another ball, or far more hangs loose than was measured.
[[nodiscard]] std::optional<TooMuchLeft> too_much_left(const State& state, const Reading& old_reading);
// The same where only so much was told to have been cut off it.
[[nodiscard]] std::optional<TooMuchLeft> too_much_left(const State& state, Length cut_off);
// The same at a place that was told, with so much of it loose or cut off there.
[[nodiscard]] std::optional<TooMuchLeft> left_behind(const State& state, const WorkPlace& at, Length taken);
// How far the ball in the work reaches by the record, where the place told lies past it by more than the
// ball's length may be wrong. Nothing where it has been told already that the work is past it.
[[nodiscard]] std::optional<BallReach> reaches_before(const State& state, const WorkPlace& at);
// A place told of a knot, where row or rip has told that the work is past it by more than so many rows: none where the
// knot is in hand and cut out now; a few where it is told as it was cut, later than it was met, but hardly by more.
[[nodiscard]] std::optional<KnotBehind> knot_behind(const State& state, const WorkPlace& at, int rows);

// The other end of the ball in the work, which is the loose one now, was read before it was begun, and lies elsewhere
// than the old strand. `match` as for the old strand.
[[nodiscard]] std::optional<OtherEnd> other_end_off(const Project& project, const State& state,
                                                    const Strand& old_strand, const MatchOptions& match);
// Whether two readings may be of one end: of one direction, and no further from each other than both may be off.
// Nothing where one of them is not settled.
[[nodiscard]] std::optional<bool> may_be_one_end(const Placing& a, const Placing& b, Length period);

// Fresh balls, or the one of them that matters, whose end on record settles nothing; as added. `match` as for a ball of
// which nothing is told.
[[nodiscard]] std::vector<const BallState*> unsettled_balls(const Project& project, const State& state,
                                                            const MatchOptions& match, const BallState* only = nullptr);

// "the outside end of ball C is not on record", or that it came apart since it was read.
[[nodiscard]] std::string lacks_first_end(const State& state, const BallState& ball);

// Fresh balls whose recorded end went into a join that has come apart since.
[[nodiscard]] std::vector<std::string> balls_come_apart(const State& state);

}  // namespace ballchange
