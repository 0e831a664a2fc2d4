#pragma once
#include <optional>

#include "base/scale.hpp"
#include "ledger/state.hpp"

// The scale of a project.
namespace ballchange::stock {

// Somebody's one scale: the step told, or seen, in half of the masses of the project at least; a mass that shows a
// finer one has that. 1 g where nothing was weighed.
[[nodiscard]] Mass scale_step(const State& state);

// The yarn in a gram of a ball: by its own mass and length where both were told, of the dyed yarn otherwise by the ball
// band. Nothing where neither is known.
[[nodiscard]] std::optional<Length> yarn_in_a_gram(const State& state, const BallState& ball);

}  // namespace ballchange::stock
