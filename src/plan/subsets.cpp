#include "plan/subsets.hpp"

#include <algorithm>
#include <bit>
#include <cassert>

#include "plan/kept.hpp"

namespace ballchange::plan {
namespace {

using Set = std::size_t;  // bit i: ball i

// Of the sets that will do, the one with the fewest balls and then the least cut.
struct Choice {
  Set set = 0;
  Tenths discard = never;

  void consider(const Hand& hand, Set candidate, Tenths cost) {
    if (cost >= never) return;
    if (!hand.need && candidate + 1 != Set{1} << hand.balls.size()) return;
    const int balls = std::popcount(candidate);
    const int have = set == 0 ? std::numeric_limits<int>::max() : std::popcount(set);
    if (balls > have || (balls == have && cost >= discard)) return;
    if (hand.need) {
      std::vector<Placed> used;
      for (std::size_t i = 0; i < hand.balls.size(); ++i)
        if (candidate >> i & 1U) used.push_back({i, false});
      if (yarn_for_work(hand, used, cost) < *hand.need) return;
    }
    set = candidate;
    discard = cost;
  }
};

std::optional<std::vector<Placed>> each_join(const Hand& hand, const Trims& trims) {
  const std::size_t lays = trims.lays();
  const Set sets = Set{1} << hand.balls.size();
  std::vector<Tenths> least(sets * lays, never);
  for (std::size_t lay = 0; lay < lays; ++lay)
    least[(Set{1} << trims.ball_of(lay)) * lays + lay] = trims(trims.rest(), lay);
  Choice choice;
  for (Set set = 1; set < sets; ++set) {
    const Tenths* const here = &least[set * lays];
    choice.consider(hand, set, *std::min_element(here, here + lays));
    for (std::size_t last = 0; last < lays; ++last) {
      if (here[last] >= never) continue;
      const Tenths* const row = &trims.table()[last * trims.size()];
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
  Tenths cost = choice.discard;
  while (set != 0) {
    std::size_t last = 0;
    while (least[set * lays + last] + trims(last, next) != cost) ++last;
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
      for (const Label& label : at(set, lay)) cost = std::min(cost, label.cost);
    return cost;
  }

  void fill() {
    for (std::size_t lay = 0; lay < trims_.lays(); ++lay) {
      std::vector<Label>& first = at(Set{1} << trims_.ball_of(lay), lay);
      if (!hand_.begin)
        first.push_back({});
      else
        onward({0, hand_.begin->out_of_step}, between(hand_, *hand_.begin, trims_.placed(lay)), first);
    }
    for (Set set = 1; set < Set{1} << hand_.balls.size(); ++set)
      for (std::size_t last = 0; last < trims_.lays(); ++last)
        for (std::size_t next = 0; next < trims_.lays(); ++next) {
          const Set bit = Set{1} << trims_.ball_of(next);
          if (set & bit) continue;
          const auto gap = between(hand_, trims_.placed(last), trims_.placed(next));
          for (const Label& label : at(set, last)) onward(label, gap, at(set | bit, next));
        }
  }

  void onward(const Label& label, std::optional<Tenths> gap, std::vector<Label>& to) const {
    const Ways choice = ways(hand_, gap, label.running);
    for (std::size_t w = 0; w < choice.count; ++w)
      keep(to, {label.cost + choice.way[w].discard, label.running + choice.way[w].shift});
  }

  [[nodiscard]] bool leads(const Label& from, std::optional<Tenths> gap, const Label& to) const {
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
        if (end.cost == choice.discard) {
          lay = last;
          label = end;
        }
    std::vector<Placed> order{trims_.placed(lay)};
    while ((set ^= Set{1} << trims_.ball_of(lay)) != 0) {
      const std::size_t next = lay;
      const Label after = label;
      for (std::size_t last = 0; last < trims_.lays(); ++last)
        for (const Label& before : at(set, last))
          if (leads(before, between(hand_, trims_.placed(last), trims_.placed(next)), after)) {
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
