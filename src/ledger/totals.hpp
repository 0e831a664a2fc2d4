#pragma once
#include "ledger/project.hpp"
#include "ledger/state.hpp"

namespace ballchange {

// Yarn that no row and no join takes.
struct Aside {
  Length first_trim;  // cut off the ball that the work began with
  Length swatches, foundation, edging;
};

// What the joins and balls of a state add up to.
void add_up(const Project& project, const Aside& aside, State& state);

}  // namespace ballchange
