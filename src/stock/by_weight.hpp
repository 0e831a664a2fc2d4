#pragma once
#include <optional>

#include "ledger/state.hpp"
#include "stock/on_balls.hpp"

// A ball counted by weights alone: a second yarn of one colour, for an edging or a contrast, that has no repeat and no
// joins to keep in step; or one of the dyed yarn while nobody knows the yarn a stitch takes.
namespace ballchange::stock {

struct ByWeight {
  std::optional<Mass> mass;    // as last weighed, otherwise of the whole ball
  std::optional<Length> left;  // then, where its length was told
  Length plus_minus;
  std::optional<Length> in_a_gram;  // by the whole ball
  // Rows that took some of it: from its first weighing, or from where the work came to it, to the last.
  struct PerRow {
    double rows = 0;                     // worked in between
    double done = 0;                     // of the work, at the last
    Mass mass;                           // a row
    Mass first_doubt, last_doubt;        // of what it weighed at both ends, one standard deviation
    Mass drift;                          // of a row, from what was worked to what is to come
    double left = 0, low = 0, high = 0;  // rows that what is left makes at that rate; nine in ten
  };
  std::optional<PerRow> per_row;
};
// Whether weights are all that tells of a ball of the dyed yarn: its length isn't known, or the yarn in the work.
[[nodiscard]] bool counted_by_weight(const State& state, const Stock& stock, std::size_t ball);
[[nodiscard]] ByWeight by_weight(const State& state, std::size_t ball, const Doubts& doubts);

// That what is left is enough for such a length; left must be known: asserted.
[[nodiscard]] double chance_for(const ByWeight& yarn, Length needed);
// For so many rows more at the rate so far; that must be known: asserted.
[[nodiscard]] double chance_for_rows(const ByWeight& yarn, double rows);

// Yarn a row took by the scale and the label, while both are known.
[[nodiscard]] std::optional<Length> row_by_weight(const ByWeight& yarn);

}  // namespace ballchange::stock
