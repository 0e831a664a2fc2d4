#pragma once
#include <cstddef>
#include <vector>

#include "plan/tenths.hpp"

// The least assignment of rows to columns (the Hungarian method, by shortest augmenting paths), kept so that single
// pairs can be forbidden or fixed and the answer mended: each mend costs one path, n^2. R. Jonker, A. Volgenant,
// Computing 38, 1987.
namespace ballchange::plan {

class Assignment {
 public:
  static constexpr std::size_t nothing = static_cast<std::size_t>(-1);

  // n x n, row-major, costs >= 0; `never` (trims.hpp) and above: forbidden. The table is looked at again by later
  // calls.
  Assignment(const std::vector<Tenths>& table, std::size_t n);

  // Assigns every row. False when there is no assignment.
  [[nodiscard]] bool solve();
  // After table[row * n + its column] became dearer: assigns that row anew. False when there is no assignment.
  [[nodiscard]] bool mend(std::size_t row);
  // Row and its column stay together from here on, or no more.
  void fix(std::size_t row, bool fixed) { fixed_[to_[row]] = fixed ? 1 : 0; }

  [[nodiscard]] Tenths value() const;
  [[nodiscard]] std::size_t to(std::size_t row) const { return to_[row]; }
  [[nodiscard]] bool is_fixed(std::size_t row) const { return fixed_[to_[row]] != 0; }
  [[nodiscard]] bool column_is_fixed(std::size_t column) const { return fixed_[column] != 0; }
  // What any assignment that holds the pair costs above the least, at least; >= 0.
  [[nodiscard]] Tenths reduced(std::size_t row, std::size_t column) const {
    return (*table_)[row * n_ + column] - u_[row] - v_[column];
  }

 private:
  bool augment(std::size_t row);

  const std::vector<Tenths>* table_;
  std::size_t n_;
  std::vector<std::size_t> to_;     // of each row
  std::vector<std::size_t> owner_;  // of each column
  std::vector<char> fixed_;         // columns
  std::vector<Tenths> u_, v_;       // prices of rows, columns
};

}  // namespace ballchange::plan
