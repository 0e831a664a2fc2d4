#pragma once
#include <string>

#include "ledger/project.hpp"
#include "show/creep.hpp"

namespace ballchange {

// How the colours of a project creep, by what was seen of them; `path` as people name its file. `state` must outlive
// it.
[[nodiscard]] CreepShown creep_of(const Project& project, const State& state, const std::string& path);

}  // namespace ballchange
