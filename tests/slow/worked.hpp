#pragma once
#include <string>
#include <vector>

#include "reading/reading.hpp"
#include "yarn/yarn.hpp"

// The worked posteriors in tests/checks/placed_readings.jsonl.
namespace ballchange::slow {

struct WorkedCandidate {
  double place = 0;  // cm
  std::string colour;
  Direction direction = Direction::forward;
  double probability = 0;
};

struct WorkedReading {
  std::string what;
  Yarn yarn;
  End end = End::new_end;
  std::string text;
  Reading reading;
  std::vector<WorkedCandidate> candidates;  // all above 1 %
};

// Throws when the file is missing, empty or not as expected.
[[nodiscard]] std::vector<WorkedReading> worked_readings();

}  // namespace ballchange::slow
