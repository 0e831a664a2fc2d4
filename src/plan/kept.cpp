#include "plan/kept.hpp"

#include <algorithm>

#include "plan/trims.hpp"

namespace ballchange::plan {
namespace {

// Nearest to zero, in (-R/2, R/2].
Tenths nearest_to_zero(Tenths a, Tenths period) {
  const Tenths w = wrapped(a, period);
  return 2 * w > period ? w - period : w;
}

// One label with the way it came.
struct Step {
  Label label;
  std::size_t parent = 0;
  Joined joined;
};

const Label& label_of(const Label& label) { return label; }
const Label& label_of(const Step& step) { return step.label; }

template <class Item>
void add(std::vector<Item>& items, const Item& item) {
  for (const Item& other : items)
    if (makes_needless(label_of(other), label_of(item))) return;
  items.erase(std::remove_if(items.begin(), items.end(),
                             [&](const Item& other) { return makes_needless(label_of(item), label_of(other)); }),
              items.end());
  items.push_back(item);
}

std::vector<Step> onward(const Hand& hand, const std::vector<Step>& before, std::optional<Tenths> between) {
  std::vector<Step> after;
  for (std::size_t p = 0; p < before.size(); ++p) {
    const Label& label = before[p].label;
    const Ways choice = ways(hand, between, label.running);
    for (std::size_t w = 0; w < choice.count; ++w) {
      const Joined& joined = choice.way[w];
      add(after, {{label.cost + joined.discard, label.running + joined.shift, 0}, p, joined});
    }
  }
  return after;
}

}  // namespace

Ways ways(const Hand& hand, std::optional<Tenths> between, Tenths running) {
  if (!between) return {{mean_trim(hand), {}}, 1};
  const Tenths t = hand.tolerance;
  const Tenths lowest = std::max(-t, -t - running);
  const Tenths highest = std::min(t, t - running);
  Ways result;
  const Tenths uncut = nearest_to_zero(-*between, hand.period);
  const bool allowed = uncut >= lowest && uncut <= highest && (hand.sparing || uncut >= 0);
  if (allowed) result.way[result.count++] = {0, uncut, false};
  if (allowed && !hand.sparing) return result;
  const Tenths wanted = hand.sparing && lowest <= highest ? lowest : std::clamp(-running, -t, t);
  const Tenths trims = wrapped(*between + wanted, hand.period);
  if (!allowed || trims > 0) result.way[result.count++] = {trims, wanted, false};
  return result;
}

void keep(std::vector<Label>& labels, const Label& label) { add(labels, label); }

Order cut_kept(const Hand& hand, const std::vector<Placed>& balls) {
  std::vector<std::vector<Step>> stages{{{{0, hand.begin ? hand.begin->out_of_step : 0, 0}, 0, {}}}};
  if (hand.begin) stages.push_back(onward(hand, stages.back(), between(hand, *hand.begin, balls.front())));
  for (std::size_t k = 0; k + 1 < balls.size(); ++k)
    stages.push_back(onward(hand, stages.back(), between(hand, balls[k], balls[k + 1])));

  const auto cheapest = std::min_element(stages.back().begin(), stages.back().end(),
                                         [](const Step& a, const Step& b) { return a.label.cost < b.label.cost; });
  Order order{balls, std::nullopt, {}, cheapest->label.cost};
  std::size_t at = static_cast<std::size_t>(cheapest - stages.back().begin());
  for (std::size_t stage = stages.size() - 1; stage > 0; --stage) {
    const Step& step = stages[stage][at];
    order.joins.push_back(step.joined);
    at = step.parent;
  }
  std::reverse(order.joins.begin(), order.joins.end());
  if (hand.begin) {
    order.first = order.joins.front();
    order.joins.erase(order.joins.begin());
  }
  return order;
}

Tenths kept_discard(const Hand& hand, const std::vector<Placed>& balls, Tenths enough) {
  std::vector<Label> labels{{0, hand.begin ? hand.begin->out_of_step : 0, 0}};
  std::vector<Label> next;
  for (std::size_t k = hand.begin ? 0 : 1; k < balls.size(); ++k) {
    const auto gap = k == 0 ? between(hand, *hand.begin, balls[0]) : between(hand, balls[k - 1], balls[k]);
    next.clear();
    for (const Label& label : labels) {
      const Ways choice = ways(hand, gap, label.running);
      for (std::size_t w = 0; w < choice.count; ++w) {
        const Label after{label.cost + choice.way[w].discard, label.running + choice.way[w].shift, 0};
        if (after.cost < enough) keep(next, after);
      }
    }
    if (next.empty()) return never;
    labels.swap(next);
  }
  return std::min_element(labels.begin(), labels.end(), [](const Label& a, const Label& b) { return a.cost < b.cost; })
      ->cost;
}

}  // namespace ballchange::plan
