#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "ledger/state.hpp"
#include "stock/on_balls.hpp"

// One pass of Kalman's filter over all that was weighed. Model: stock/on_balls.hpp.
namespace ballchange::stock {

// What weighings must tell the share to before it is told at all.
inline constexpr double kWorthTelling = 0.03;

// How what is weighed is taken. A weighing further off than anybody meets is a slip: as a rule something that was not
// recorded, and it says what is left, but nothing of a row.
struct Account {
  double open = 0;         // one standard deviation of the share, before anything was weighed
  bool misread = false;    // a slip was misread off the scale, and says nothing at all
  int left_out = 0;        // the entry of a weighing that says nothing either; 0: none
  std::vector<int> slips;  // entries, rising: slips however near they come
};

struct Followed {
  Stock stock;                     // without `measured`
  double score = 0;                // log density of all that was weighed, slips included
  std::optional<std::size_t> odd;  // the ball of the last weighing of this yarn, where that was a slip
  int odd_entry = 0;               // then that weighing's
  bool beyond = false;             // the rows took more than that ball held
  bool again = false;              // it was weighed alike twice
  std::vector<int> slips;          // all of them, by entry, rising
  std::size_t slip_ball = 0;       // of the first of them
  int before_slip = 0;             // the entry of the weighing before that one on its ball; 0: none
};
[[nodiscard]] Followed follow_weighings(const State& state, const Doubts& doubts, const Account& account);

// What a slip costs, log density of a weighing in cm: one in a hundred, anywhere on a ball.
[[nodiscard]] double slip_score(const State& state);

}  // namespace ballchange::stock
