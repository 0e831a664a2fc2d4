#include <fmt/format.h>

#include <iostream>

#include "plan/assignment.hpp"
#include "plan/branch.hpp"

// Reads tables of joins from standard input, each its size n and n * n costs (below 0: forbidden; node 0 is where an
// order begins and ends); for each writes the least assignment, the best circle found, the bound told with it.
int main() {
  using namespace ballchange::plan;
  for (std::size_t n = 0; std::cin >> n;) {
    std::vector<Tenths> given(n * n);
    for (Tenths& cost : given) std::cin >> cost;
    // Node 0 last, as a Trims has it.
    std::vector<Tenths> table(n * n);
    for (std::size_t row = 0; row < n; ++row)
      for (std::size_t column = 0; column < n; ++column) {
        const Tenths cost = given[(row + 1) % n * n + (column + 1) % n];
        table[row * n + column] = cost < 0 ? never : cost;
      }
    if (!std::cin) return 1;
    Assignment assignment(table, n);
    const bool any = assignment.solve();
    Steps steps{Effort{2'000'000'000}};
    const Searched searched = branch_and_bound(Trims(table), steps);
    fmt::print("{} {} {}\n", any ? assignment.value() : -1, searched.cost, searched.bound);
  }
  return 0;
}
