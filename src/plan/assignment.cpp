#include "plan/assignment.hpp"

#include <algorithm>
#include <utility>

#include "plan/trims.hpp"

namespace ballchange::plan {

Assignment::Assignment(const std::vector<Tenths>& table, std::size_t n)
    : table_(&table), n_(n), to_(n, nothing), owner_(n, nothing), fixed_(n, 0), u_(n, 0), v_(n, 0) {}

bool Assignment::solve() {
  // Prices to start from, and every pair that costs nothing above them.
  const std::vector<Tenths>& cost = *table_;
  for (std::size_t column = 0; column < n_; ++column) {
    v_[column] = cost[column];
    for (std::size_t row = 1; row < n_; ++row) v_[column] = std::min(v_[column], cost[row * n_ + column]);
  }
  for (std::size_t row = 0; row < n_; ++row) {
    u_[row] = cost[row * n_] - v_[0];
    for (std::size_t column = 1; column < n_; ++column)
      u_[row] = std::min(u_[row], cost[row * n_ + column] - v_[column]);
    for (std::size_t column = 0; column < n_ && to_[row] == nothing; ++column) {
      if (owner_[column] != nothing || reduced(row, column) != 0) continue;
      to_[row] = column;
      owner_[column] = row;
    }
  }
  for (std::size_t row = 0; row < n_; ++row)
    if (to_[row] == nothing && !augment(row)) return false;
  return value() < never;
}

bool Assignment::mend(std::size_t row) {
  owner_[to_[row]] = nothing;
  to_[row] = nothing;
  return augment(row);
}

Tenths Assignment::value() const {
  Tenths sum = 0;
  for (std::size_t row = 0; row < n_; ++row) sum += (*table_)[row * n_ + to_[row]];
  return sum;
}

// The cheapest way to a free column, handing columns on (Dijkstra over reduced costs).
// Long: search, potentials and handing on share the columns reached.
bool Assignment::augment(std::size_t row) {
  std::vector<Tenths> far(n_);
  std::vector<std::size_t> from(n_, row);
  std::vector<std::size_t> open;  // columns not reached yet
  std::vector<std::size_t> done;
  open.reserve(n_);
  for (std::size_t column = 0; column < n_; ++column) {
    if (fixed_[column]) continue;
    far[column] = reduced(row, column);
    open.push_back(column);
  }
  std::size_t sink = nothing;
  while (sink == nothing) {
    if (open.empty()) return false;
    std::size_t best = 0;
    for (std::size_t k = 1; k < open.size(); ++k)
      if (far[open[k]] < far[open[best]]) best = k;
    const std::size_t column = open[best];
    if (far[column] >= never / 2) return false;
    open[best] = open.back();
    open.pop_back();
    if (owner_[column] == nothing) {
      sink = column;
      break;
    }
    done.push_back(column);
    const std::size_t through = owner_[column];
    const Tenths so_far = far[column] - u_[through];
    const Tenths* const costs = &(*table_)[through * n_];
    for (const std::size_t next : open) {
      const Tenths now = so_far + costs[next] - v_[next];
      if (now < far[next]) {
        far[next] = now;
        from[next] = through;
      }
    }
  }
  const Tenths least = far[sink];
  u_[row] += least;
  for (const std::size_t column : done) {
    v_[column] -= least - far[column];
    u_[owner_[column]] += least - far[column];
  }
  for (std::size_t column = sink; column != nothing;) {
    const std::size_t taker = from[column];
    std::swap(to_[taker], column);
    owner_[to_[taker]] = taker;
    if (taker == row) break;
  }
  return true;
}

}  // namespace ballchange::plan
