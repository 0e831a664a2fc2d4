#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "plan/tenths.hpp"

// In which order to use the balls on hand, so that least is cut off over the whole piece.
//
// Ball i starts at place s_i and finishes at e_i of a repeat of length R; m is the allowance of a join, t the
// tolerance. With v = (e_i - s_j - m + t) mod R joining j to i cuts max(0, v - t), sparing max(0, v - 2t). A yarn that
// mirrors itself (place p read the other way is D - p) may be worked from either end of a ball: it then starts at D -
// e, finishes at D - s.
//
// Only the ends count here, each taken as known exactly; where one is not known, its joins count with their mean.
// R. S. Garfinkel, Operations Research 25(5), 1977; S. H. Fuller, IEEE Trans. Computers C-21(11), 1972.
namespace ballchange::plan {

struct Ball {
  std::optional<Tenths> start;   // s, in [0, R); nothing: not known
  std::optional<Tenths> finish;  // e
  Tenths yarn = 0;               // how much is on it; counts only when `need` is told
};

// What the first ball follows.
struct Begin {
  std::optional<Tenths> place;  // the end it is joined to, or the place wanted for the first stitch
  Tenths allowance = 0;         // of that join; 0 for a wanted place
  Tenths out_of_step = 0;       // shift already in the work; counts only when kept from the start
};

struct Hand {
  Tenths period = 0;     // R > 0
  Tenths allowance = 0;  // m >= 0
  Tenths tolerance = 0;  // t >= 0, below R/2 when kept from the start
  bool sparing = false;
  bool keep_from_start = false;  // the shifts of all joins together stay within t as well
  std::optional<Tenths> mirror;  // D; nothing: the yarn is directional
  std::optional<Begin> begin;
  std::optional<Tenths> need;  // yarn the work needs; nothing: all balls are used
  std::vector<Ball> balls;
};

struct Placed {
  std::size_t ball = 0;  // index into Hand::balls
  bool turned = false;   // worked from its other end
  friend bool operator==(const Placed&, const Placed&) = default;
};

// The joins of an order, one for each ball but the first; for the first too when there is a Begin.
struct Joined {
  Tenths discard = 0;  // trims of both ends
  Tenths shift = 0;    // + skipped, - repeated
  bool mean = false;   // an end is not known: `discard` is what it costs on average, `shift` 0
};

struct Order {
  std::vector<Placed> balls;
  std::optional<Joined> first;  // with a Begin only
  std::vector<Joined> joins;    // joins[k]: of balls[k] and balls[k + 1]
  Tenths discard = 0;           // all of them together
};

// How hard to try before an order is given unproven: counted, so that every machine gives the same answer.
struct Effort {
  std::int64_t steps = 400'000'000;
  std::size_t subsets = 13;  // every order of so many balls is looked at, whatever steps that takes; at most 13
};

struct Best {
  Order order;
  bool proven = false;
  Tenths bound = 0;    // no order cuts less; order.discard when proven
  bool enough = true;  // false: `need` is more than all balls hold; `order` then uses all of them
};

// hand.balls not empty: asserted.
[[nodiscard]] Best best_order(const Hand& hand, const Effort& effort = {});

// All balls as they stand in `hand`, none turned. With `need`, as many of the first as it takes.
[[nodiscard]] Order as_listed(const Hand& hand);

// What somebody does who reads the starts only: at each change the ball that cuts least, the first listed of equals;
// the first ball too when there is a Begin, otherwise the first one listed. A ball whose start is not known comes last.
[[nodiscard]] Order nearest_next(const Hand& hand);

// The same from a first ball told.
[[nodiscard]] Order nearest_next(const Hand& hand, Placed first);

}  // namespace ballchange::plan
