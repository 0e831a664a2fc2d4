#pragma once
#include <vector>

#include "plan/estimate.hpp"

// Lengths with weights, and what they come to.
namespace ballchange::plan {

class Weighed {
 public:
  void add(Length length, double weight) { all_.push_back({length, weight}); }
  // Mean and quantiles, the weights taken as shares of their sum; all nothing where nothing was added.
  [[nodiscard]] Waste told();

 private:
  struct One {
    Length length;
    double weight;
  };
  std::vector<One> all_;
};

// The same of lengths that weigh alike, in any number of parts.
[[nodiscard]] Waste waste_of(const std::vector<std::vector<Length>>& parts);

}  // namespace ballchange::plan
