#pragma once
#include <optional>
#include <string>
#include <vector>

#include "ledger/state.hpp"
#include "stock/enough.hpp"
#include "stock/on_balls.hpp"

// Where the ball in work will end, and what the joins before that would cost.
namespace ballchange::stock {

// By yarn left and yarn a row; nine in ten end between `low` and `high`.
struct Ending {
  Rows rows;  // from where the work stands
  WorkPlace at, low, high;
};
// Nothing where no ball is in the work, or yarn or rows aren't known.
[[nodiscard]] std::optional<Ending> ending(const State& state, const Stock& stock);

// So much of a loose end is laid out: what shows a change or two wherever it ends, the join and the room before it.
[[nodiscard]] Length to_lay_out(const Repeat& repeat, Length allowance, Length room);
// The row that should not be begun before: until then even a ball that ends early has so much left, as yarn is counted
// by the label. Not after the row that comes next: then it is time now.
struct LayOut {
  int before_row = 1;
  bool now = false;
};
[[nodiscard]] std::optional<LayOut> lay_out(const State& state, const Stock& stock, const Ending& ending,
                                            Length length);

// Where the work should stop so that even a ball that ends early has so much left, by the label; nothing where it has
// less by now.
[[nodiscard]] std::optional<WorkPlace> stop_by(const State& state, const Stock& stock, const Ending& ending,
                                               Length left);

// An end on the repeat, in the working order of balls worked the usual way; backward where it runs the other way.
struct End {
  Length place;
  bool backward = false;
};
struct FreshEnd {
  std::string ball;
  End end;
  bool other_end = false;  // than it was told to be worked from; the yarn reads alike from both
};
// A join to that ball: trims off both ends, split as one likes, so the work may stop anywhere in the last `trims` of
// the ball in work.
struct Stop {
  std::string ball;
  Length trims;
  Length shift;  // + skipped, - repeated
  bool other_end = false;
};
struct Stops {
  std::vector<Stop> joins;         // cheapest first
  std::vector<std::string> other;  // balls that run the other way
};
// For a ball in work that ends at `old_end`. Of a ball with both its ends among those the other one is told where
// starting there saves at least `worth_turning`. A join itself is uncertain by `doubt`: it uses that much less of the
// tolerance. `out_of_step` counts where the joining keeps from the start.
[[nodiscard]] Stops stops(const End& old_end, const std::vector<FreshEnd>& fresh, const Joining& joining, Length doubt,
                          Length out_of_step, Length worth_turning);

}  // namespace ballchange::stock
