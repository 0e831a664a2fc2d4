#pragma once
#include <optional>
#include <vector>

#include "fabric/fall.hpp"
#include "ledger/state.hpp"
#include "plan/estimate.hpp"
#include "stock/on_balls.hpp"

// Whether the yarn on hand is enough for what is still to be worked, with the joins to come.
namespace ballchange::stock {

// "Nineteen in twenty": what is called enough.
inline constexpr double kSurely = 0.95;

// How the work is joined, as far as it costs yarn.
struct Joining {
  Length period;     // R
  Length allowance;  // m
  Length tolerance;  // t, as plan/estimate.hpp has it
  bool sparing = false;
  bool keep_from_start = false;
};

// What is still to be worked and the balls it may be worked from, the one on the hook first: joins as any ball comes.
// Nothing where one of them isn't known, and where more rows were recorded than the ball on the hook holds.
[[nodiscard]] std::optional<plan::Work> work_to_come(const State& state, const Stock& stock, const Joining& joining);

struct Outlook {
  double chance = 0;                    // that it is enough, as the joins are made now
  std::optional<double> if_sparing;     // with sparing joins, where they are not so already
  std::optional<double> with_one_more;  // with one ball more
  int joins = 0;                        // still to come
  Length whole_cut;                     // the most that one of them cuts off: a repeat
  bool sparing = false;                 // how they are joined now
  Length may_cut;                       // off all their ends together, so that it surely is enough; 0 at least
  int full_cuts = 0;                    // of these joins, so many may cut off a whole repeat
  std::optional<int> leave_out;         // rows, so that it surely is enough; nothing where no number of rows does
  Length needed;                        // as rows are weighed, joins not counted
};
// `rows`: so many may be left out at most, those yet to be begun; not told: all that the yarn needed would make.
[[nodiscard]] std::optional<Outlook> outlook(const State& state, const Stock& stock, const Joining& joining,
                                             std::optional<int> rows = std::nullopt);
// Its chance alone.
[[nodiscard]] std::optional<double> chance_of_enough(const State& state, const Stock& stock, const Joining& joining);

// Whole diamonds (or swirls, or stripes) that hold at least so many rows; nothing where the colours make none.
struct Diamonds {
  Look look = Look::argyle;
  int count = 0;
  int rows = 0;
};
[[nodiscard]] std::optional<Diamonds> whole_diamonds(const Colouring& yarn, int stitches, int rows);

// The heights next to the planned one at which a ring closes within the tolerance, below (or the same) and above, none
// below what is worked.
struct Rings {
  std::optional<Closing> below, above;
};
[[nodiscard]] Rings rings_near(const Colouring& yarn, int stitches, int planned, Length tolerance,
                               const RowsWorked& worked = {});

}  // namespace ballchange::stock
