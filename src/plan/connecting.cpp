#include "plan/connecting.hpp"

#include <algorithm>
#include <cstdint>

#include "plan/trims.hpp"

namespace ballchange::plan {
namespace {

class Connecting {
 public:
  Connecting(const Assignment& a, const std::vector<Tenths>& table, std::size_t n) : circle_of_(n, n) {
    for (std::size_t node = 0; node < n; ++node) {
      if (circle_of_[node] != n) continue;
      for (std::size_t at = node; circle_of_[at] == n; at = a.to(at)) circle_of_[at] = circles_;
      ++circles_;
    }
    apart_.assign(circles_ * circles_, never);
    if (circles_ == 1) return;
    for (std::size_t row = 0; row < n; ++row) {
      if (a.is_fixed(row)) continue;
      Tenths* const apart = &apart_[circle_of_[row] * circles_];
      for (std::size_t column = 0; column < n; ++column) {
        const std::size_t to = circle_of_[column];
        if (to == circle_of_[row] || a.column_is_fixed(column) || table[row * n + column] >= never) continue;
        apart[to] = std::min(apart[to], a.reduced(row, column));
      }
    }
  }

  Tenths cost() {
    Tenths sum = 0;
    while (connect(sum) && sum < never) {
    }
    return sum;
  }

 private:
  // Raises `sum` by what leaving costs for every group that nothing leaves free; false when there is one group only.
  bool connect(Tenths& sum) {
    std::vector<std::uint8_t> reaches(apart_.size());
    for (std::size_t k = 0; k < apart_.size(); ++k) reaches[k] = apart_[k] == 0 ? 1 : 0;
    for (std::size_t via = 0; via < circles_; ++via)
      for (std::size_t from = 0; from < circles_; ++from) {
        if (!reaches[from * circles_ + via]) continue;
        for (std::size_t to = 0; to < circles_; ++to)
          if (reaches[via * circles_ + to]) reaches[from * circles_ + to] = 1;
      }
    bool more = false;
    for (std::size_t circle = 0; circle < circles_; ++circle) more = leave(circle, reaches, sum) || more;
    return more;
  }

  // The group of `circle`: all it reaches. Done once a group, by its first circle, and only where each reaches back.
  bool leave(std::size_t circle, const std::vector<std::uint8_t>& reaches, Tenths& sum) {
    std::vector<bool> in(circles_, false);
    std::size_t count = 0;
    for (std::size_t other = 0; other < circles_; ++other) {
      in[other] = other == circle || reaches[circle * circles_ + other] != 0;
      if (!in[other]) continue;
      ++count;
      if (other != circle && (!reaches[other * circles_ + circle] || other < circle)) return false;
    }
    if (count == circles_) return false;
    Tenths least = never;
    for (std::size_t from = 0; from < circles_; ++from)
      for (std::size_t to = 0; to < circles_; ++to)
        if (in[from] && !in[to]) least = std::min(least, apart_[from * circles_ + to]);
    sum += least;
    if (least >= never) return false;
    for (std::size_t from = 0; from < circles_; ++from)
      for (std::size_t to = 0; to < circles_; ++to)
        if (in[from] && !in[to] && apart_[from * circles_ + to] < never) apart_[from * circles_ + to] -= least;
    return true;
  }

  std::vector<std::size_t> circle_of_;
  std::size_t circles_ = 0;
  std::vector<Tenths> apart_;  // what going from one circle to another costs above the assignment
};

}  // namespace

Tenths connecting_cost(const Assignment& a, const std::vector<Tenths>& table, std::size_t n) {
  return Connecting(a, table, n).cost();
}

}  // namespace ballchange::plan
