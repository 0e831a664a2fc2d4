#pragma once
#include "base/scale.hpp"
#include "ledger/state.hpp"

// The scale of a project.
namespace ballchange::stock {

// Somebody's one scale: the step told, or seen, in half of the masses of the project at least; a mass that shows a
// finer one has that. 1 g where nothing was weighed.
[[nodiscard]] Mass scale_step(const State& state);

}  // namespace ballchange::stock
