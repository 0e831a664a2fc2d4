#include "plan/bound.hpp"

#include "plan/assignment.hpp"

namespace ballchange::plan {
namespace {

// `chosen` pairs of the table's rows and columns, row `must` (and with `both` its column) among them.
struct Pairs {
  std::vector<Tenths> cost;  // n x n
  std::size_t n = 0;
  std::size_t chosen = 0;
  std::size_t must = Assignment::nothing;
  bool both = false;
};

Tenths least(const Pairs& pairs) {
  // Rows and columns left over go to as many that cost nothing.
  const std::size_t spare = pairs.n - pairs.chosen;
  const std::size_t size = pairs.n + spare;
  std::vector<Tenths> table(size * size, never);
  for (std::size_t row = 0; row < size; ++row)
    for (std::size_t column = 0; column < size; ++column) {
      Tenths& cost = table[row * size + column];
      const bool real_row = row < pairs.n;
      const bool real_column = column < pairs.n;
      if (real_row && real_column)
        cost = pairs.cost[row * pairs.n + column];
      else if ((real_row && row != pairs.must) || (real_column && !(pairs.both && column == pairs.must)))
        cost = 0;
    }
  Assignment assignment(table, size);
  return assignment.solve() ? assignment.value() : 0;
}

Tenths one_way(const Hand& hand, const Trims& trims, std::size_t balls) {
  const std::size_t n = trims.lays() + (hand.begin ? 1 : 0);
  Pairs pairs{std::vector<Tenths>(n * n, never), n, balls - (hand.begin ? 0 : 1), Assignment::nothing, false};
  for (std::size_t row = 0; row < n; ++row)
    for (std::size_t column = 0; column < trims.lays(); ++column) pairs.cost[row * n + column] = trims(row, column);
  if (hand.begin) pairs.must = trims.rest();
  return least(pairs);
}

// Ends: 2 ball for its start as it lies, 2 ball + 1 for its finish. End x followed by end y: out of x, into y.
Tenths either_way(const Hand& hand, const Trims& trims, std::size_t balls) {
  const std::size_t ends = trims.lays();
  const std::size_t n = ends + (hand.begin ? 1 : 0);
  Pairs pairs{std::vector<Tenths>(n * n, never), n, 2 * (balls - (hand.begin ? 0 : 1)), Assignment::nothing, true};
  for (std::size_t out = 0; out < ends; ++out) {
    // A ball that is left by its start lies turned; one that is entered by its finish too.
    const std::size_t from = out ^ 1U;
    for (std::size_t in = 0; in < ends; ++in)
      if (trims.ball_of(from) != trims.ball_of(in)) pairs.cost[out * n + in] = trims(from, in);
    if (hand.begin) pairs.cost[ends * n + out] = pairs.cost[out * n + ends] = trims(trims.rest(), out);
  }
  if (hand.begin) pairs.must = ends;
  return (least(pairs) + 1) / 2;
}

}  // namespace

Tenths joins_bound(const Hand& hand, const Trims& trims, std::size_t balls) {
  if (balls == 1 && !hand.begin) return 0;
  return trims.turning() ? either_way(hand, trims, balls) : one_way(hand, trims, balls);
}

}  // namespace ballchange::plan
