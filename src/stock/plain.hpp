#pragma once
#include <optional>

#include "ledger/state.hpp"
#include "stock/on_balls.hpp"

// A second yarn of one colour, for an edging or a contrast: no repeat, no joins to keep in step, only weights.
namespace ballchange::stock {

struct Plain {
  std::optional<Mass> mass;    // as last weighed, otherwise of the whole ball
  std::optional<Length> left;  // where its length was told
  Length plus_minus;
  // Between its first weighing and its last, rows that took some of it.
  struct PerRow {
    double rows = 0;                     // worked in between
    Mass mass;                           // a row
    Mass first_step, last_step;          // of the scale
    double left = 0, low = 0, high = 0;  // rows that what is left makes at that rate; nine in ten
  };
  std::optional<PerRow> per_row;
};
// The ball must be plain: asserted.
[[nodiscard]] Plain plain_of(const State& state, std::size_t ball, const Doubts& doubts);

// That what is left is enough for such a length; left must be known: asserted.
[[nodiscard]] double chance_for(const Plain& yarn, Length needed);
// For so many rows more at the rate so far; that must be known: asserted.
[[nodiscard]] double chance_for_rows(const Plain& yarn, double rows);

}  // namespace ballchange::stock
