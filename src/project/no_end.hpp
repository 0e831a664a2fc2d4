#pragma once
#include <string>

#include "console/options.hpp"
#include "ledger/state.hpp"

// What is missing where a project knows too little of its balls to advise a join.
namespace ballchange {

// Why no fresh ball can be ranked, and what to tell.
[[nodiscard]] std::string no_end_on_record(const State& state, const Options& options);

// Throws Problem(content) where balls are on record, none of them was begun, and no option tells which one comes next.
void refuse_unbegun(const State& state, const Options& options);

}  // namespace ballchange
