#pragma once
#include <algorithm>
#include <vector>

#include "base/random.hpp"
#include "plan/estimate.hpp"
#include "plan/order.hpp"

// The yarn that balls bring and what their joins take, as chances.
namespace ballchange::plan {

// A trim where nothing is known of the ends: nothing with that chance, otherwise anything up to `most`, evenly.
struct TrimSpread {
  Length most;
  double nothing = 0;
  Length period;
  [[nodiscard]] Length draw(Random& random) const { return period * std::max(0.0, random.uniform() - nothing); }
  // So many at once: three to a random number, each a whole number of 2,097,152nds of the repeat.
  [[nodiscard]] Length draw(Random& random, int joins) const;
};
[[nodiscard]] TrimSpread trim_spread(const Work& work);

// How far a number of balls reach.
struct Reach {
  Length over;    // yarn beyond what is needed, on average; may be below 0
  Length spread;  // one standard deviation
  // That they are enough when `lost` of them is no use.
  [[nodiscard]] double chance(Length lost) const;
};

// What the first n balls hold, n = 0, 1, ...
class Supply {
 public:
  explicit Supply(const Work& work) : work_(work) {}

  struct Yarn {
    Length mean, plus_minus;  // one standard deviation
  };
  [[nodiscard]] Yarn ball(int index) const;  // from 0
  [[nodiscard]] Yarn all(int balls) const;
  [[nodiscard]] Reach reach(int balls) const;
  // The least count that could be enough, were nothing trimmed; at least 1.
  [[nodiscard]] int fewest() const;
  // No ball that is joined to another is so short that the join could use up all of it.
  [[nodiscard]] bool long_balls() const;

 private:
  const Work& work_;
};

// A hand of no balls that joins as the work does.
[[nodiscard]] Hand joining_as(const Work& work);

// Counts and their chances, told: `chance[k]` is that of `first` + k.
[[nodiscard]] std::vector<Enough> worth_telling(int first, const std::vector<double>& chance);
[[nodiscard]] BallCount counted(int first, const std::vector<double>& chance);

// Refuses more than most_balls. Throws Problem(content).
void refuse_too_many(int balls);

}  // namespace ballchange::plan
