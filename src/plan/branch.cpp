#include "plan/branch.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

#include "plan/assignment.hpp"
#include "plan/connecting.hpp"
#include "plan/drum.hpp"

namespace ballchange::plan {
namespace {

constexpr Tenths parts = 64;  // l in sixty-fourths; tables are multiplied by it

// What a search goes by: for orders from one first ball whose sum of v is at one level. The cost of such an order is
// its sum here, divided by parts.
struct Table {
  std::vector<Tenths> cost;
  std::vector<Tenths> to_last;  // what v must come to, by last ball; empty when it doesn't matter
  Tenths part = 0;
  Tenths bound = 0;  // on any order it stands for
};

// Which sums of v: V + turns R, or that and all above.
struct Level {
  Tenths turns = 0;
  bool or_more = false;
};

Tenths rounded_up(Tenths sum) { return sum >= 0 ? (sum + parts - 1) / parts : -(-sum / parts); }

class Search {
 public:
  Search(const Hand* hand, const Trims& trims, Steps& steps)
      : hand_(hand), trims_(trims), n_(trims.size()), steps_(steps) {}

  Searched run() {
    Table plain{trims_.table(), {}, 0, 0};
    for (Tenths& cost : plain.cost)
      if (cost < never) cost *= parts;
    Assignment root = solved(plain);
    best_.sequence = patched(trims_, next(root), steps_);
    improve(trims_, best_.sequence, steps_);
    improve_further(trims_, best_.sequence, plain.bound, 20, steps_);
    best_.cost = cost(trims_, best_.sequence);
    best_.bound = plain.bound;
    if (best_.bound < best_.cost) hand_ ? by_first_ball(*hand_, plain) : search({plain});
    return best_;
  }

 private:
  // Assigns, and takes the sum as the table's bound.
  Assignment solved(Table& table) {
    Assignment result(table.cost, n_);
    steps_.take(n_ * n_ * 8);
    if (result.solve())
      table.bound = std::max(table.bound, rounded_up(result.value()));
    else
      table.bound = never;
    return result;
  }

  void by_first_ball(const Hand& hand, const Table& plain) {
    Hand moved = hand;
    moved.allowance -= hand.tolerance;
    if (moved.begin) moved.begin->allowance -= hand.tolerance;
    moved.tolerance = 0;
    const std::vector<Tenths> least = least_totals(moved);
    steps_.take(n_ * n_ * n_);
    const std::size_t balls = hand.balls.size();
    std::vector<Table> tables;
    for (std::size_t first = 0; first < (hand.begin ? 1 : balls); ++first) {
      for (const Level level : {Level{0, false}, Level{1, true}}) {
        Table table = plain;
        table.to_last.assign(least.begin() + static_cast<std::ptrdiff_t>(first * balls),
                             least.begin() + static_cast<std::ptrdiff_t>((first + 1) * balls));
        for (Tenths& sum : table.to_last)
          if (sum < never) sum += level.turns * hand.period;
        table = sharpest(table, hand.begin ? balls : first, level);
        if (table.bound < best_.cost) tables.push_back(std::move(table));
      }
    }
    std::sort(tables.begin(), tables.end(), [](const Table& a, const Table& b) { return a.bound < b.bound; });
    search(tables);
  }

  // The l that bounds best, by halving: where the assignment's own sum of v falls short, more of it is asked for.
  // `first`: the first ball, or rest when it is not fixed.
  Table sharpest(const Table& plain, std::size_t first, Level level) {
    Table best;
    best.bound = -1;
    Tenths low = level.or_more ? 0 : -parts / 4;
    Tenths high = parts + parts / 4;
    while (low <= high) {
      const Tenths part = (low + high) / 2;
      Table table = weighted(plain, part, first);
      const Assignment assigned = solved(table);
      const Tenths lack = lacking(table, assigned);
      if (table.bound > best.bound) best = std::move(table);
      if (best.bound >= best_.cost || lack == 0) break;
      if (lack > 0)
        low = part + 1;
      else
        high = part - 1;
    }
    return best;
  }

  [[nodiscard]] Tenths lacking(const Table& table, const Assignment& a) const {
    Tenths lack = 0;
    if (table.bound >= never || table.to_last.empty()) return 0;
    for (std::size_t row = 0; row < n_; ++row) lack += missing(row, a.to(row), table.to_last);
    return lack;
  }

  // v of a join; what an order to that last ball must come to, for its way to rest.
  [[nodiscard]] Tenths missing(std::size_t row, std::size_t column, const std::vector<Tenths>& to_last) const {
    if (column == trims_.rest()) return to_last[row];
    if (row != trims_.rest()) return -v(*between(*hand_, trims_.placed(row), trims_.placed(column)));
    return hand_->begin ? -v(*between(*hand_, *hand_->begin, trims_.placed(column))) : 0;
  }

  [[nodiscard]] Tenths v(Tenths between) const { return wrapped(between + hand_->tolerance, hand_->period); }

  [[nodiscard]] Table weighted(const Table& plain, Tenths part, std::size_t first) const {
    Table table = plain;
    table.part = part;
    for (std::size_t row = 0; row < n_; ++row)
      for (std::size_t column = 0; column < n_; ++column) {
        Tenths& cost = table.cost[row * n_ + column];
        if (row == trims_.rest() && first != trims_.rest() && column != first) cost = never;
        if (cost >= never) continue;
        const Tenths more = missing(row, column, plain.to_last);
        cost = more >= never ? never : cost + part * more;
      }
    return table;
  }

  // All tables, the least bound first.
  void search(const std::vector<Table>& tables) {
    given_up_ = never;
    for (const Table& table : tables) {
      if (table.bound >= best_.cost) break;
      floor_ = table.bound;
      table_ = table.cost;
      now_ = &table;
      if (steps_.out()) {
        given_up_ = std::min(given_up_, table.bound);
        continue;
      }
      Assignment root(table_, n_);
      steps_.take(n_ * n_ * 8);
      if (root.solve()) visit(root);
    }
    best_.bound = std::max(best_.bound, std::min(best_.cost, given_up_));
  }

  [[nodiscard]] std::vector<std::size_t> next(const Assignment& a) const {
    std::vector<std::size_t> result(n_);
    for (std::size_t i = 0; i < n_; ++i) result[i] = a.to(i);
    return result;
  }

  void take(const Sequence& sequence) {
    const Tenths now = cost(trims_, sequence);
    if (now >= best_.cost) return;
    best_.cost = now;
    best_.sequence = sequence;
  }

  // The circle with the fewest joins that may be given up.
  [[nodiscard]] std::vector<std::size_t> circle_to_open(const Assignment& a) const {
    std::vector<char> seen(n_, 0);
    std::vector<std::size_t> chosen;
    std::size_t fewest = n_ + 1;
    for (std::size_t node = 0; node < n_; ++node) {
      std::vector<std::size_t> circle;
      const bool fresh = !seen[node];
      for (std::size_t at = node; !seen[at]; at = a.to(at)) {
        seen[at] = 1;
        if (!a.is_fixed(at)) circle.push_back(at);
      }
      if (!fresh || circle.size() >= fewest) continue;
      fewest = circle.size();
      chosen = std::move(circle);
    }
    return chosen;
  }

  [[nodiscard]] Tenths bound(const Assignment& a, const std::vector<Tenths>& table) {
    steps_.take(n_ * n_);
    return std::max(floor_, rounded_up(a.value() + connecting_cost(a, table, n_)));
  }

  [[nodiscard]] bool one_circle(const Assignment& a) const {
    std::size_t length = 1;
    for (std::size_t at = a.to(trims_.rest()); at != trims_.rest(); at = a.to(at)) ++length;
    return length == n_;
  }

  void visit(const Assignment& a) {
    const Tenths here = bound(a, table_);
    if (here >= best_.cost) return;
    take(patched(trims_, next(a), steps_));
    // One circle at the level searched for is the best of its branch. At another level it is priced too low here.
    if (one_circle(a) && (now_->part == 0 || lacking(*now_, a) == 0)) return;
    Assignment fixing = a;
    for (const std::size_t row : circle_to_open(a)) {
      if (here >= best_.cost) return;
      if (steps_.out()) {
        given_up_ = std::min(given_up_, here);
        return;
      }
      Tenths& pair = table_[row * n_ + a.to(row)];
      const Tenths kept = pair;
      pair = never;
      Assignment child = fixing;
      steps_.take(n_ * n_);
      if (child.mend(row)) visit(child);
      pair = kept;
      fixing.fix(row, true);
    }
  }

  const Hand* hand_;  // nothing: any table
  const Trims& trims_;
  std::size_t n_;
  Steps& steps_;
  std::vector<Tenths> table_;  // with what is forbidden in this branch
  const Table* now_ = nullptr;
  Tenths floor_ = 0;
  Searched best_;
  Tenths given_up_ = never;  // least bound of a branch not looked at
};

}  // namespace

Searched branch_and_bound(const Trims& trims, Steps& steps) { return Search(nullptr, trims, steps).run(); }

Searched branch_and_bound(const Hand& hand, const Trims& trims, Steps& steps) {
  assert(!trims.turning() && !hand.need && !hand.keep_from_start && hand.balls.size() >= 2);
  return Search(&hand, trims, steps).run();
}

}  // namespace ballchange::plan
