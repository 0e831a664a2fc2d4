#pragma once
#include <string>

#include "ledger/state.hpp"

namespace ballchange {

// Why no ball can be advised, none of them with an end on record, and what to tell: "no fresh ball is on record: tell
// its end with --new ...".
[[nodiscard]] std::string no_end_on_record(const State& state);

}  // namespace ballchange
