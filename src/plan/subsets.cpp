#include "plan/subsets.hpp"

#include <algorithm>
#include <bit>
#include <cassert>

#include "plan/kept.hpp"

namespace ballchange::plan {
namespace {

using Set = std::size_t;  // bit i: ball i

// What is cut and, to choose between orders that cut the same, the balls that are turned: in one number.
constexpr Tenths to_price = 16;
static_assert(to_price > static_cast<Tenths>(most_for_subsets));
Tenths price(Tenths discard, std::size_t turned) { return discard * to_price + static_cast<Tenths>(turned); }
std::size_t turned(const Placed& ball) { return ball.turned ? 1 : 0; }

// Of the sets that will do, the one with the fewest balls and then the lowest price.
struct Choice {
  Set set = 0;
  Tenths price = never;

  void consider(const Hand& hand, Set candidate, Tenths least) {
    if (least >= never) return;
    if (!hand.need && candidate + 1 != Set{1} << hand.balls.size()) return;
    const int balls = std::popcount(candidate);
    const int have = set == 0 ? std::numeric_limits<int>::max() : std::popcount(set);
    if (balls > have || (balls == have && least >= price)) return;
    if (hand.need) {
      std::vector<Placed> used;
      for (std::size_t i = 0; i < hand.balls.size(); ++i)
        if (candidate >> i & 1U) used.push_back({i, false});
      if (yarn_for_work(hand, used, least / to_price) < *hand.need) return;
    }
    set = candidate;
    price = least;
  }
};

// As the table of trims.
std::vector<Tenths> prices(const Trims& trims) {
  std::vector<Tenths> table = trims.table();
  for (std::size_t from = 0; from < trims.size(); ++from)
    for (std::size_t to = 0; to < trims.size(); ++to) {
      Tenths& one = table[from * trims.size() + to];
      if (one < never) one = price(one, to == trims.rest() ? 0 : turned(trims.placed(to)));
    }
  return table;
}

std::optional<std::vector<Placed>> each_join(const Hand& hand, const Trims& trims) {
  const std::vector<Tenths> table = prices(trims);
  const std::size_t lays = trims.lays();
  const Set sets = Set{1} << hand.balls.size();
  std::vector<Tenths> least(sets * lays, never);
  for (std::size_t lay = 0; lay < lays; ++lay)
    least[(Set{1} << trims.ball_of(lay)) * lays + lay] = table[trims.rest() * trims.size() + lay];
  Choice choice;
  for (Set set = 1; set < sets; ++set) {
    const Tenths* const here = &least[set * lays];
    choice.consider(hand, set, *std::min_element(here, here + lays));
    for (std::size_t last = 0; last < lays; ++last) {
      if (here[last] >= never) continue;
      const Tenths* const row = &table[last * trims.size()];
      for (std::size_t next = 0; next < lays; ++next) {
        const Set bit = Set{1} << trims.ball_of(next);
        if (set & bit) continue;
        Tenths& there = least[(set | bit) * lays + next];
        there = std::min(there, here[last] + row[next]);
      }
    }
  }
  if (choice.set == 0) return std::nullopt;

  std::vector<Placed> order;
  Set set = choice.set;
  std::size_t next = trims.rest();
  Tenths cost = choice.price;
  while (set != 0) {
    std::size_t last = 0;
    while (least[set * lays + last] + table[last * trims.size() + next] != cost) ++last;
    order.push_back(trims.placed(last));
    cost = least[set * lays + last];
    set ^= Set{1} << trims.ball_of(last);
    next = last;
  }
  std::reverse(order.begin(), order.end());
  return order;
}

// The same with labels; where each came from is found again afterwards, label by label.
class Kept {
 public:
  Kept(const Hand& hand, const Trims& trims)
      : hand_(hand), trims_(trims), labels_((std::size_t{1} << hand.balls.size()) * trims.lays()) {}

  std::optional<std::vector<Placed>> best() {
    fill();
    Choice choice;
    for (Set set = 1; set < Set{1} << hand_.balls.size(); ++set) choice.consider(hand_, set, least(set));
    if (choice.set == 0) return std::nullopt;
    return way_to(choice);
  }

 private:
  std::vector<Label>& at(Set set, std::size_t lay) { return labels_[set * trims_.lays() + lay]; }

  Tenths least(Set set) {
    Tenths cost = never;
    for (std::size_t lay = 0; lay < trims_.lays(); ++lay)
      for (const Label& label : at(set, lay)) cost = std::min(cost, price(label.cost, label.turned));
    return cost;
  }

  void fill() {
    for (std::size_t lay = 0; lay < trims_.lays(); ++lay) {
      std::vector<Label>& first = at(Set{1} << trims_.ball_of(lay), lay);
      const Placed next = trims_.placed(lay);
      if (!hand_.begin)
        first.push_back({0, 0, turned(next)});
      else
        onward({0, hand_.begin->out_of_step, 0}, between(hand_, *hand_.begin, next), turned(next), first);
    }
    for (Set set = 1; set < Set{1} << hand_.balls.size(); ++set)
      for (std::size_t last = 0; last < trims_.lays(); ++last)
        for (std::size_t next = 0; next < trims_.lays(); ++next) {
          const Set bit = Set{1} << trims_.ball_of(next);
          if (set & bit) continue;
          const auto gap = between(hand_, trims_.placed(last), trims_.placed(next));
          for (const Label& label : at(set, last)) onward(label, gap, turned(trims_.placed(next)), at(set | bit, next));
        }
  }

  void onward(const Label& label, std::optional<Tenths> gap, std::size_t more, std::vector<Label>& to) const {
    const Ways choice = ways(hand_, gap, label.running);
    for (std::size_t w = 0; w < choice.count; ++w)
      keep(to, {label.cost + choice.way[w].discard, label.running + choice.way[w].shift, label.turned + more});
  }

  [[nodiscard]] bool leads(const Label& from, std::optional<Tenths> gap, std::size_t more, const Label& to) const {
    if (from.turned + more != to.turned) return false;
    const Ways choice = ways(hand_, gap, from.running);
    for (std::size_t w = 0; w < choice.count; ++w)
      if (from.cost + choice.way[w].discard == to.cost && from.running + choice.way[w].shift == to.running) return true;
    return false;
  }

  std::vector<Placed> way_to(const Choice& choice) {
    Set set = choice.set;
    std::size_t lay = 0;
    Label label;
    for (std::size_t last = 0; last < trims_.lays(); ++last)
      for (const Label& end : at(set, last))
        if (price(end.cost, end.turned) == choice.price) {
          lay = last;
          label = end;
        }
    std::vector<Placed> order{trims_.placed(lay)};
    while ((set ^= Set{1} << trims_.ball_of(lay)) != 0) {
      const std::size_t next = lay;
      const Label after = label;
      for (std::size_t last = 0; last < trims_.lays(); ++last)
        for (const Label& before : at(set, last))
          if (leads(before, between(hand_, trims_.placed(last), trims_.placed(next)), turned(trims_.placed(next)),
                    after)) {
            lay = last;
            label = before;
          }
      assert(lay != next);
      order.push_back(trims_.placed(lay));
    }
    std::reverse(order.begin(), order.end());
    return order;
  }

  const Hand& hand_;
  const Trims& trims_;
  std::vector<std::vector<Label>> labels_;
};

}  // namespace

std::optional<std::vector<Placed>> best_by_subsets(const Hand& hand, const Trims& trims) {
  assert(hand.balls.size() <= most_for_subsets);
  return hand.keep_from_start ? Kept(hand, trims).best() : each_join(hand, trims);
}

}  // namespace ballchange::plan
