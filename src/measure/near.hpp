#pragma once
#include <vector>

#include "measure/weigh.hpp"

// Circles one step from another: where the search ended beside the right one they lead there.
namespace ballchange::measuring {

// Each with one section less; where its neighbours were of one colour the three become one.
[[nodiscard]] std::vector<Circle> one_fewer(const Circle& circle);
// Twice round, as where two unlike sections between the same colours were taken for one another.
[[nodiscard]] Circle twice_round(const Circle& circle);
// Each with one section named as a slip has it, where no other name was written more often.
[[nodiscard]] std::vector<Circle> renamed(const Weighed& weighed);

}  // namespace ballchange::measuring
