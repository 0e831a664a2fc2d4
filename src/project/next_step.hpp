#pragma once
#include <string>
#include <vector>

#include "project/project.hpp"
#include "show/text.hpp"
#include "stock/on_balls.hpp"

// What is sensible to do next in a project, by what is on record.
namespace ballchange {

struct NextStep {
  std::string text;     // what to do and why
  std::string command;  // as typed at a terminal, where it asks for readings
};

// The most pressing first; one at least, three at most. `stock` is that of the state.
[[nodiscard]] std::vector<NextStep> next_steps(const OpenProject& open, const stock::Stock& stock, Told told,
                                               const Context& context);

// Every row planned; false where none are.
[[nodiscard]] bool all_rows_done(const OpenProject& open);

// "row 41 of 180 planned", "row 190, 10 rows more than planned", "not begun"; for a list of projects.
[[nodiscard]] std::string where_it_stands(const OpenProject& open);

}  // namespace ballchange
