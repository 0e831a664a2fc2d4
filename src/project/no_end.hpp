#pragma once
#include <string>
#include <string_view>

#include "console/options.hpp"
#include "ledger/state.hpp"

// What is missing where a project knows too little of its balls to advise a join.
namespace ballchange {

// Why no fresh ball can be ranked, and what to tell.
[[nodiscard]] std::string no_end_on_record(const State& state, const Options& options);

// Where the only fresh ball is an offcut: how to take it, and `otherwise` what else to do ("; or ..."). `command`
// stands before the option in a line of its own, "ballchange check ".
[[nodiscard]] std::string only_an_offcut(const BallState& offcut, std::string_view otherwise,
                                         std::string_view command = {});

// Throws Problem(content) where balls are on record, none of them was begun, and no option tells which one comes next.
void refuse_unbegun(const State& state, const Options& options);

}  // namespace ballchange
