#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

#include "show/estimate.hpp"
#include "show/page.hpp"

namespace ballchange {
namespace {

using plan::WayEstimate;

std::string balls(int count) { return fmt::format("{} ball{}", count, count == 1 ? "" : "s"); }

// How many balls that is, as nobody would measure it closer.
std::string in_balls(double count) {
  constexpr double next_to = 0.15;
  if (count < 0.95) {
    const long share = std::lround(count * 100);
    return share < 1 ? "under 1 % of a ball holds" : fmt::format("{} % of a ball holds", share);
  }
  const double whole = std::round(count);
  const std::string_view near = std::abs(count - whole) < 0.02 ? "" : count > whole ? "a little over " : "nearly ";
  if (std::abs(count - whole) > next_to) return fmt::format("{:.3g} balls hold", count);
  return fmt::format("{}{} hold{}", near, balls(static_cast<int>(whole)), whole == 1 ? "s" : "");
}

// The chance that so many are enough.
double chance_of(const WayEstimate& way, int count) {
  for (const plan::Enough& enough : way.enough) {
    if (enough.balls == count) return enough.chance;
    if (enough.balls > count) return 0;
  }
  return way.enough.empty() || count < way.enough.front().balls ? 0 : 1;
}

class EstimateText {
 public:
  EstimateText(const EstimateShown& shown, const Screen& screen, Told told)
      : shown_(shown), page_(screen, told), told_(told) {}

  std::string take() {
    if (shown_.unit_in_doubt) {
      page_.say("Mind", fmt::format("the yarn needed was taken as {}; if that is not what you meant, write its unit: "
                                    "--needed 800{}.",
                                    amount(shown_.work.needed, told_), told_ == Told::inches ? "yd" : "m"));
    }
    buy();
    needed();
    if (any().balls.p95 > 1) {
      way(0, "Any ball");
      way(1, "Best one");
      way(2, "In order");
    }
    print();
    how();
    return page_.take();
  }

 private:
  // Of what is simulated: to 5 %, and no closer than a hand.
  [[nodiscard]] std::string yarn(Length length) const { return amount(length, told_, std::max(length / 20, 10_cm)); }
  [[nodiscard]] std::string yarn(Length length, bool certain) const {
    return certain ? amount(length, told_) : yarn(length);
  }
  [[nodiscard]] const WayEstimate& any() const { return shown_.ways[0]; }

  void buy() {
    const int count = any().balls.p95;
    const auto have = static_cast<int>(shown_.work.on_hand.size());
    const std::string enough = fmt::format("enough in {} of pieces like this{}", percent(chance_of(any(), count)),
                                           count > 1 ? ", whichever ball comes next" : "");
    std::string text;
    if (have >= count) {
      const std::string spare = have > count ? fmt::format("{}, {} to spare", have, have - count) : "as many";
      text = fmt::format("none: {} {} {}; you have {}.", balls(count), count == 1 ? "is" : "are", enough, spare);
    } else {
      text = fmt::format("{}: {}.", balls(count), enough);
      if (have > 0) text += fmt::format(" You have {}: {} more.", have, count - have);
    }
    const double fewer = chance_of(any(), count - 1);
    if (fewer >= 0.005) text += fmt::format(" One ball fewer would do in {}.", percent(fewer));
    page_.say("Buy", text);
    if (shown_.balls_with_more && *shown_.balls_with_more > count) {
      page_.say("Mind", fmt::format("your yarn per stitch counts as exact here: with {:.0f} % more of it {} would be "
                                    "needed. Measure over more stitches.",
                                    EstimateShown::kMoreYarn * 100, balls(*shown_.balls_with_more)));
    }
  }

  [[nodiscard]] std::string about(Length length) const { return amount(length, told_, length / 100); }

  void needed() {
    const plan::Work& work = shown_.work;
    page_.say("Needed", fmt::format("{} in the work, as much as {}; each join takes {} besides ({}).",
                                    about(work.needed), in_balls(work.needed / work.ball), tape(work.allowance, told_),
                                    method_row(shown_.method).name));
    const double more = std::round(100 * (shown_.by_scale.value_or(1) - 1));
    if (more != 0) {
      page_.say("Rows", fmt::format("by the scale take {:g} % {} yarn than the gauge says, and are counted so.",
                                    std::abs(more), more > 0 ? "more" : "less"));
    }
    if (shown_.begun) {
      page_.say("Counts", "the whole work, as if nothing of it were done yet. For what is left of it: ballchange log");
    }
  }

  [[nodiscard]] std::string saved(const WayEstimate& way) const {
    const Length less = any().waste.mean - way.waste.mean;
    if (less < shown_.work.ball / 200) return " It saves next to nothing here.";
    std::string text = fmt::format(" It saves about {} of yarn", yarn(less, is_certain(any()) && is_certain(way)));
    const int fewer = any().balls.p95 - way.balls.p95;
    return text + (fewer > 0 ? fmt::format(" and {}.", balls(fewer)) : ", and no whole ball.");
  }

  // All that is joined was read: no chance is in it.
  [[nodiscard]] bool is_certain(const WayEstimate& way) const {
    return shown_.balls_read > 1 && is_nothing(way.waste.p95 - way.waste.p50, told_) &&
           is_nothing(way.waste.p90 - way.waste.mean, told_);
  }

  void way(std::size_t k, std::string_view label) {
    const WayEstimate& way = shown_.ways[k];
    static constexpr std::string_view kWhat[] = {"taken as they come, ends unread",
                                                 "of those on hand the one that cuts least now, their starts read",
                                                 "both ends of every ball read first (ballchange order)"};
    std::string text(kWhat[k]);
    if (k == 0 && shown_.balls_read > 1) {
      text = "taken in the order in which they were recorded";
      if (!is_certain(way)) text += ", ends not read left to chance";
    }
    const std::string mean = yarn(way.waste.mean, is_certain(way)), nine = yarn(way.waste.p90);
    const bool more = !is_certain(way) && way.waste.p90 > way.waste.mean && nine != mean;
    const std::string over = more ? fmt::format(" (in one case of ten over {})", nine) : "";
    text += fmt::format(": about {} cut off and in joins{}; {}.", mean, over, balls(way.balls.p95));
    if (k > 0) text += saved(way);
    page_.say(label, text);
    if (shown_.verbose) spread(way);
  }

  void spread(const WayEstimate& way) {
    const bool certain = is_certain(way);
    std::string text =
        fmt::format("{} or less in half of them, {} in nine of ten, {} in 19 of 20.", yarn(way.waste.p50, certain),
                    yarn(way.waste.p90, certain), yarn(way.waste.p95, certain));
    for (std::size_t k = 0; k < way.enough.size(); ++k) {
      const plan::Enough& enough = way.enough[k];
      text += fmt::format("{} {} in {}", k == 0 ? " Enough are" : ",", balls(enough.balls), percent(enough.chance));
    }
    page_.say("", way.enough.empty() ? text : text + ".");
  }

  void print() {
    const int count = shown_.other_hands.balls.p95;
    const std::string hands =
        shown_.other_hands_by > 0
            ? fmt::format("other hands, whose yarn a stitch varies by {:.3g} %", shown_.other_hands_by * 100)
            : std::string("other pieces with the same yarn a stitch");
    page_.say("Pattern", fmt::format("print {}: enough for {} of {}, balls joined as they come.", balls(count),
                                     percent(chance_of(shown_.other_hands, count)), hands));
  }

  // Where they are so few that what is told of them hangs on the seed.
  [[nodiscard]] std::string few_pieces() const {
    constexpr std::int64_t many = 500;
    const std::int64_t pieces = shown_.ways[2].simulated;
    if (pieces >= many) return {};
    return fmt::format("; In order by {} pieces, so that another seed may tell a little else", pieces);
  }

  // How each way was come by, of those that chance is in.
  [[nodiscard]] std::string chances() const {
    static constexpr std::string_view kWays[] = {"Any ball", "Best one", "In order"};
    std::vector<std::string> exact, simulated;
    for (std::size_t k = 0; k < shown_.ways.size(); ++k) {
      if (is_certain(shown_.ways[k])) continue;
      (shown_.ways[k].exact ? exact : simulated).emplace_back(kWays[k]);
    }
    std::string text =
        exact.empty() ? "" : and_list(exact) + (exact.size() == 1 ? " is" : " are") + " worked out exactly";
    if (simulated.empty()) return text;
    if (!text.empty()) text += "; ";
    text += simulated.size() == std::size(kWays) ? "all three" : and_list(simulated);
    return text +
           fmt::format(" {} simulated (seed {}{})", simulated.size() == 1 ? "is" : "are", shown_.seed, few_pieces());
  }

  void how() {
    const plan::Work& work = shown_.work;
    std::string text = any().balls.p95 > 1 ? chances() : "";
    if (!text.empty()) text += ". ";
    text += fmt::format("{} ball holds {}, give or take {:.4g} %", text.empty() ? "one" : "One",
                        amount(work.ball, told_), work.ball_plus_minus * 100);
    if (work.knots > 0) {
      text += fmt::format("; {:.4g} knot{} a ball.", work.knots, work.knots == 1 ? "" : "s");
    } else {
      text += "; no knots are counted: --knots 0.2 for one in five balls.";
    }
    page_.say("How", text);
    if (shown_.balls_read > 0) {
      const std::size_t half = shown_.balls_half_read;
      const std::string only = half == 0                   ? std::string()
                               : half == shown_.balls_read ? std::string(", one end of each,")
                                                           : fmt::format(", of {} one end only,", half);
      page_.say("Read",
                fmt::format("what was read of {} on hand{} counts.", balls(static_cast<int>(shown_.balls_read)), only));
    }
    if (work.period + work.allowance > work.ball) {
      page_.say("Mind", "a repeat of this yarn is longer than a ball: a change of balls can cost a whole ball.");
    }
  }

  const EstimateShown& shown_;
  Page page_;
  Told told_;
};

}  // namespace

std::string estimate_screen(const EstimateShown& shown, const Screen& screen, Told told) {
  return EstimateText(shown, screen, told).take();
}

}  // namespace ballchange
