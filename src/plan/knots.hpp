#pragma once
#include <algorithm>
#include <cmath>

#include "base/random.hpp"

namespace ballchange::plan {

// A count of knots, by how likely each is; a large mean in parts, whose chances are still numbers.
class Knots {
 public:
  explicit Knots(double mean) : parts_(static_cast<int>(std::ceil(mean / 50))), mean_(mean / std::max(parts_, 1)) {}
  int draw(Random& random) const {
    int count = 0;
    for (int part = 0; part < parts_; ++part) count += draw_part(random);
    return count;
  }

 private:
  int draw_part(Random& random) const {
    double rest = random.uniform();
    double chance = none_;
    int count = 0;
    while (rest >= chance && count < 1000) {
      rest -= chance;
      chance *= mean_ / ++count;
    }
    return count;
  }

  int parts_;
  double mean_;
  double none_ = std::exp(-mean_);
};

}  // namespace ballchange::plan
