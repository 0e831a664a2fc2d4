#pragma once
#include <string>
#include <vector>

#include "project/project.hpp"

// The loose ends of fresh balls that are still to be looked at.
namespace ballchange {

struct EndToRead {
  const BallState* ball = nullptr;  // points into the state
  std::string why;                  // what its reading on record leaves open, a sentence; empty: none is on record
  bool settled = false;             // it may well be right as it stands
};
// As the balls were added, of at most the first few that have a reading. What is no reading of this yarn counts as
// leaving everything open.
[[nodiscard]] std::vector<EndToRead> ends_to_read(const OpenProject& open);

}  // namespace ballchange
