#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "project/project.hpp"

// Beginning the work so that the colour falls right: more chain than needed is made, the work starts where the colour
// is wanted, and what is spare is unpicked. With p the place wanted for the first stitch, f the yarn in the foundation
// and p_s the place of the ball's loose end, (p - f - p_s) mod R stays out of the work.
namespace ballchange {

struct FirstStitch {
  std::optional<Amount> trim;  // nothing where the ball's end can't be placed
  std::string text;            // what to do, or what is to be told first
};

// For the end the ball is worked from. Throws Problem(content) for a place that is none, and where that end was never
// read.
[[nodiscard]] FirstStitch first_stitch(std::string_view text, const OpenProject& open, const Measures& measures,
                                       const MatchOptions& match, const BallState& ball);

}  // namespace ballchange
