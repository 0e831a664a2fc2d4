#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "plan/trims.hpp"
#include "show/creep.hpp"
#include "show/order.hpp"
#include "show/page.hpp"

namespace ballchange {
namespace {

using plan::Joined;
using plan::Order;

class OrderText {
 public:
  OrderText(const OrderShown& shown, const Screen& screen, Told told)
      : shown_(shown), page_(screen, told), told_(told) {}

  std::string take() {
    order();
    need();
    left_out();
    joins();
    sum();
    saving();
    sure();
    mean();
    lots();
    longer();
    return page_.take();
  }

 private:
  [[nodiscard]] std::string name(const plan::Placed& placed) const {
    return printable(shown_.balls[placed.ball].id, 40);
  }

  void order() {
    std::string list;
    for (const plan::Placed& placed : shown_.best.order.balls) {
      if (!list.empty()) list += ", ";
      list += name(placed);
      if (shown_.balls[placed.ball].other_end != placed.turned) list += " (from its other end)";
    }
    page_.say("Order",
              shown_.on_hook ? fmt::format("after {}: {}.", printable(*shown_.on_hook, 40), list) : list + ".");
  }

  void need() {
    if (shown_.fewer) return fewer(*shown_.fewer);
    if (shown_.too_little) return too_little(*shown_.too_little);
    if (!shown_.hand.need) return;
    const auto& balls = shown_.best.order.balls;
    if (!shown_.best.enough) {
      const plan::Tenths left = plan::yarn_for_work(shown_.hand, balls, shown_.best.order.discard);
      return page_.say("Short", fmt::format("{}.", all_short(plan::length(*shown_.hand.need - left))));
    }
    const std::size_t there = shown_.hand.balls.size() + shown_.left_out.size();
    if (balls.size() == there) {
      return page_.say("Takes", balls.size() == 1 ? "the one ball there is." : "all of them.");
    }
    page_.say("Takes", fmt::format("{} of the {} balls.", balls.size(), there));
  }

  [[nodiscard]] std::string all_short(Length by) const {
    const std::size_t balls = shown_.best.order.balls.size();
    const std::string all =
        balls == 1 ? "the one ball there is holds" : fmt::format("all {} balls together hold", balls);
    return fmt::format("{} {} too little", all, amount(by, told_));
  }

  void too_little(Length by) {
    page_.say("Short", fmt::format("{} for the rows still to be made, even if nothing is cut off.", all_short(by)));
  }

  void left_out() {
    if (shown_.left_out.empty()) return;
    std::vector<std::string> names;
    for (const std::string& id : shown_.left_out) names.push_back(printable(id, 40));
    const bool one = names.size() == 1;
    page_.say("Left out", fmt::format("{} {}, not read well enough to be put in order, and not needed.",
                                      one ? "ball" : "balls", and_list(names)));
  }

  // Where one is joined to another.
  void lots() {
    std::vector<std::string> changes;
    std::optional<std::string> before = shown_.on_hook;
    for (const plan::Placed& placed : shown_.best.order.balls) {
      const std::string& ball = shown_.balls[placed.ball].id;
      const auto from = before ? shown_.lots.find(*before) : shown_.lots.end(), to = shown_.lots.find(ball);
      if (from != shown_.lots.end() && to != shown_.lots.end() && from->second != to->second) {
        changes.push_back(fmt::format("from {} to {}", printable(*before, 40), printable(ball, 40)));
      }
      before = ball;
    }
    if (changes.empty()) return;
    page_.say("Mind",
              fmt::format("the dye lot changes {}: the shade may differ. Lay them side by side in daylight; where "
                          "it shows, choose an order by hand whose lots change where an edge or border hides it. "
                          "Rows of each by turns would put the colours out of step.",
                          and_list(changes)));
  }

  void longer() {
    for (const plan::Placed& placed : shown_.best.order.balls) {
      const auto& ball = shown_.balls[placed.ball];
      if (!ball.longer) continue;
      page_.say("Mind",
                fmt::format("ball {}: {}", name(placed),
                            longer_text(*ball.longer, shown_.yarn.repeat.total(), shown_.yarn_per_stitch, told_)));
    }
  }

  // Joins not counted, so that it is what may be tried.
  void fewer(const Fewer& fewer) {
    const std::string need = amount(fewer.need, told_);
    const std::string rows = fmt::format("the rows still need {}", need);
    if (fewer.balls == 0) {
      return page_.say("Mind",
                       fmt::format("{}, which the yarn in the work holds: perhaps no other ball is needed.", rows));
    }
    page_.say("Mind", fmt::format("all are put in order; {}, which {} may hold. As few as it takes: {}", rows,
                                  fewer.balls == 1 ? "one ball" : fmt::format("{} balls", fewer.balls),
                                  need_option(fewer.need, told_)));
  }

  [[nodiscard]] std::string what_to_cut(const Joined& joined) const {
    if (joined.mean) return fmt::format("about {} on average: an end is not read.", cut(joined.discard));
    const Length discard = plan::length(joined.discard);
    std::string text =
        is_nothing(discard, told_) ? "nothing to cut off." : fmt::format("cut {} off.", amount(discard, told_));
    const Length shift = plan::length(joined.shift);
    if (!is_nothing(shift, told_)) {
      text += fmt::format(" The colours {} {}.", shift > Length() ? "skip" : "repeat", tape(shift, told_));
    }
    return text;
  }

  void joins() {
    const Order& order = shown_.best.order;
    if (order.first) {
      const std::string first = name(order.balls.front());
      page_.say(shown_.on_hook ? fmt::format("{} to {}", printable(*shown_.on_hook, 40), first) : first,
                (shown_.on_hook ? "" : "to begin there: ") + what_to_cut(*order.first));
    }
    for (std::size_t k = 0; k < order.joins.size(); ++k) {
      page_.say(fmt::format("{} to {}", name(order.balls[k]), name(order.balls[k + 1])), what_to_cut(order.joins[k]));
    }
  }

  [[nodiscard]] std::string cut(plan::Tenths yarn) const { return amount(plan::length(yarn), told_); }

  // Trims and allowances.
  [[nodiscard]] plan::Tenths lost(const Order& order) const {
    const plan::Tenths begin = shown_.hand.begin ? shown_.hand.begin->allowance : 0;
    return order.discard + begin + static_cast<plan::Tenths>(order.joins.size()) * shown_.hand.allowance;
  }

  void sum() {
    const Order& order = shown_.best.order;
    const plan::Tenths held = lost(order) - order.discard;
    if (lost(order) == 0) return;
    page_.say("Costs", fmt::format("{} cut off and {} in the joins ({}).",
                                   is_nothing(plan::length(order.discard), told_) ? "nothing" : cut(order.discard),
                                   cut(held), method_row(shown_.method).name));
  }

  [[nodiscard]] std::string in_balls(plan::Tenths yarn) const {
    if (!shown_.yarn.ball_length) return cut(yarn);
    const double balls = plan::length(yarn) / *shown_.yarn.ball_length;
    if (balls >= 0.995) return fmt::format("{}, {:.1f} balls,", cut(yarn), balls);
    const long share = std::lround(balls * 100);
    return fmt::format("{}, {} % of a ball,", cut(yarn), share < 1 ? "under 1" : std::to_string(share));
  }

  [[nodiscard]] std::string against(const Order& other) const {
    const std::size_t own = shown_.best.order.balls.size();
    if (other.balls.size() > own) {
      const std::size_t more = other.balls.size() - own;
      return fmt::format("{} {}", more, more == 1 ? "ball" : "balls");
    }
    const plan::Tenths less = lost(other) - lost(shown_.best.order);
    return less <= 0 || is_nothing(plan::length(less), told_) ? "nothing" : in_balls(less);
  }

  void saving() {
    if (shown_.hand.balls.size() < 2) return;
    page_.say("Saves",
              fmt::format("{} against the order they were listed in; {} against taking the ball that fits best at "
                          "each change.",
                          against(shown_.as_listed), against(shown_.nearest_next)));
  }

  void sure() {
    if (shown_.best.proven) {
      return page_.say("Sure", fmt::format("no other order{} cuts off less{}.",
                                           shown_.left_out.empty() ? "" : " of the balls that are read",
                                           any_mean() || !may_matter_unread(shown_).empty() ? " on average" : ""));
    }
    page_.say("Sure",
              fmt::format("the best one found; no order at all cuts off less than {}.", cut(shown_.best.bound)));
  }

  [[nodiscard]] bool any_mean() const {
    const auto is_mean = [](const Joined& joined) { return joined.mean; };
    const Order& order = shown_.best.order;
    return std::any_of(order.joins.begin(), order.joins.end(), is_mean) || (order.first && order.first->mean);
  }

  void mean() {
    if (shown_.foundation_untold) {
      page_.say("Mind", "the foundation is not told, so its yarn is not counted: --foundation 1.2m.");
    }
    if (any_mean()) {
      return page_.say("Mind", "read the ends that are missing: only then is it known what those joins cost.");
    }
    const std::vector<std::string> unread = may_matter_unread(shown_);
    if (unread.empty()) return;
    const std::string whose = unread.size() == 1 ? fmt::format("ball {}'s missing end", printable(unread.front(), 40))
                                                 : fmt::format("the missing ends of balls {}", capped(unread));
    page_.say("Mind", fmt::format("read {}, too: another order may cut off less then.", whose));
  }

  [[nodiscard]] static std::string capped(const std::vector<std::string>& balls) {
    constexpr std::size_t most = 5;
    std::vector<std::string> list;
    for (std::size_t k = 0; k < std::min(most, balls.size()); ++k) list.push_back(printable(balls[k], 40));
    if (balls.size() > most) list.push_back(fmt::format("{} more", balls.size() - most));
    return and_list(list);
  }

  const OrderShown& shown_;
  Page page_;
  Told told_;
};

}  // namespace

std::vector<std::string> may_matter_unread(const OrderShown& shown) {
  std::vector<std::string> unread;
  if (shown.best.order.discard == 0 || shown.hand.balls.size() < 2) return unread;
  for (std::size_t k = 0; k < shown.hand.balls.size(); ++k) {
    const plan::Ball& ball = shown.hand.balls[k];
    if (!ball.start || !ball.finish) unread.push_back(shown.balls[k].id);
  }
  return unread;
}

std::string order_screen(const OrderShown& shown, const Screen& screen, Told told) {
  return OrderText(shown, screen, told).take();
}

}  // namespace ballchange
