#include <doctest/doctest.h>

#include <cmath>

#include "base/random.hpp"
#include "plan/drum.hpp"
#include "plan/order.hpp"
#include "plan/trims.hpp"

// How much is cut off at a join on average, in repeats, with random ends and no tolerance: as the balls come, nearest
// next from any first ball, best order. The shares come from an independent simulation (half a per cent of a repeat).
namespace ballchange::plan {

TEST_CASE("mean trims a join: as they come, nearest next, best order") {
  struct Share {
    std::size_t balls;
    int rounds;
    double nearest, best;
  };
  const Share shares[] = {{3, 40'000, .418, .278},
                          {6, 20'000, .305, .205},
                          {10, 10'000, .245, .175},
                          {20, 5'000, .177, .138},
                          {50, 1'500, .116, .100}};
  const std::uint64_t seed = 2718;
  CAPTURE(seed);
  Random random(seed);
  for (const Share& share : shares) {
    CAPTURE(share.balls);
    double listed = 0;
    double nearest = 0;
    double best = 0;
    for (int round = 0; round < share.rounds; ++round) {
      Hand hand;
      hand.period = 27'600;
      for (std::size_t i = 0; i < share.balls; ++i)
        hand.balls.push_back({static_cast<Tenths>(random.below(27'600)), static_cast<Tenths>(random.below(27'600)), 0});
      listed += static_cast<double>(as_listed(hand).discard);
      nearest += static_cast<double>(nearest_next(hand).discard);
      std::vector<Placed> balls;
      for (const std::size_t ball : drum_order(hand)) balls.push_back({ball, false});
      best += static_cast<double>(cut(hand, balls).discard);
    }
    const double joins = 27'600.0 * share.rounds * static_cast<double>(share.balls - 1);
    CHECK(std::abs(listed / joins - 0.5) < 0.004);
    CHECK(std::abs(nearest / joins - share.nearest) < 0.004);
    CHECK(std::abs(best / joins - share.best) < 0.004);
  }
}

}  // namespace ballchange::plan
