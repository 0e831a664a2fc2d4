#pragma once
#include "ledger/project.hpp"
#include "ledger/state.hpp"

namespace ballchange {

// What the joins and balls of a state add up to; `swatches` is the yarn in them.
void add_up(const Project& project, Length swatches, Length foundation, Length edging, State& state);

}  // namespace ballchange
