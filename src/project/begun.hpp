#pragma once
#include <optional>

#include "ledger/project.hpp"
#include "ledger/state.hpp"
#include "yarn/repeat.hpp"

namespace ballchange {

// Where on the repeat the work began: at the loose end of its foundation.
struct BegunAt {
  Direction direction = Direction::forward;
  Length place;         // along the repeat as it is worked: on the mirrored one where that is backward
  double variance = 0;  // cm^2
};
// By the reading of the end it began with. Nothing where none is on record, it doesn't settle, or, in a file edited by
// hand, is no reading.
[[nodiscard]] std::optional<BegunAt> begun_at(const Project& project, const State& state);

// Which way the strand in the work runs, of which `ball` is the last: by the readings of the joins in it, of its
// beginning, or of the end of that ball that comes last. Nothing where none of them tells.
[[nodiscard]] std::optional<Direction> direction_on_record(const Project& project, const State& state,
                                                           const BallState& ball);

// Where the work began, reckoned back along the work from what was known later: the end of the old strand that was read
// at a join, otherwise the first change of a colour that comes once a repeat. By the entry that tells it.
struct ReckonedBack {
  int entry = 0;
  BegunAt begun;
};
[[nodiscard]] std::optional<ReckonedBack> reckoned_back(const Project& project, const State& state);

}  // namespace ballchange
