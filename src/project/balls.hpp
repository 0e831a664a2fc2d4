#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/state.hpp"
#include "show/check.hpp"

// Balls of a project as a command line names them.
namespace ballchange {

// Throws Problem(content), "--ball: there is no ball Q; the project's are A, B and C".
[[nodiscard]] const BallState& ball_named(const State& state, const std::string& id);

// The first whose name differs from that one in nothing but capitals; null: there is none.
[[nodiscard]] const BallState* ball_written_like(const State& state, std::string_view id);

// Balls of the dyed yarn that are still whole, as added; an offcut is none.
[[nodiscard]] std::vector<const BallState*> fresh_balls(const State& state);

// Of balls that are offcuts the longest that is fresh; null: there is none.
[[nodiscard]] const BallState* fresh_offcut(const State& state);

// The ball as it was before any of it was worked, with the readings it had then.
[[nodiscard]] BallState before_its_use(const Project& project, const State& state, const BallState& ball);

// Of the joins made that the work is yet to reach, the next; null: there is none.
[[nodiscard]] const JoinState* next_join_ahead(const State& state);

// A, B, ..., Z, AA, AB, ...: the first that no ball bears.
[[nodiscard]] std::string next_name(const State& state);

// The dyed ball in the work, or else the last one before that ball, of another dye lot; nothing where both don't have
// one.
[[nodiscard]] std::optional<OtherLot> other_lot(const State& state, const BallState& ball);

}  // namespace ballchange
