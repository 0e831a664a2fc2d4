#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "plan/order.hpp"

// Which ball to take next: what each costs now, and what it leaves for the balls after it.
namespace ballchange::plan {

struct NextBall {
  Placed ball;
  Joined now;          // its join to what is in the work
  Tenths later = 0;    // the least that all joins after it lose, trims and allowances; an end not known by its mean
  bool proven = true;  // of `later`
  std::optional<Placed> then;  // the ball after it, in the order that loses so little
  bool then_follows = false;   // with nothing to cut off

  [[nodiscard]] Tenths in_all() const { return now.discard + later; }
};

// The `most` balls that cost least now, as they stand in the hand, and `own` among them. hand.begin: asserted.
[[nodiscard]] std::vector<std::size_t> cheapest_now(const Hand& hand, std::size_t most, std::optional<std::size_t> own);

// Every ball of the hand, and where the yarn allows it the same ball turned, the least in all first; of equals the one
// that costs least now. hand.begin: asserted. With `need` the later joins are those of as few balls as it takes.
[[nodiscard]] std::vector<NextBall> next_balls(const Hand& hand, const Effort& effort = {});

}  // namespace ballchange::plan
