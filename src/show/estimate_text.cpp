#include <fmt/format.h>

#include <algorithm>

#include "show/estimate.hpp"
#include "show/page.hpp"

namespace ballchange {
namespace {

using plan::WayEstimate;

std::string balls(int count) { return fmt::format("{} ball{}", count, count == 1 ? "" : "s"); }

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
                                    "--needed 800m.",
                                    amount(shown_.work.needed, told_)));
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
  [[nodiscard]] std::string yarn(Length length) const { return amount(length, told_, length / 20); }
  [[nodiscard]] const WayEstimate& any() const { return shown_.ways[0]; }

  void buy() {
    const int count = any().balls.p95;
    std::string text = fmt::format("{}: enough in {} of pieces like this, whichever ball comes next.", balls(count),
                                   percent(chance_of(any(), count)));
    const auto have = static_cast<int>(shown_.work.on_hand.size());
    if (have > 0) {
      text += have >= count ? " You have as many." : fmt::format(" You have {}: {} more.", have, count - have);
    }
    const double fewer = chance_of(any(), count - 1);
    if (fewer >= 0.005) text += fmt::format(" One ball fewer would do in {}.", percent(fewer));
    page_.say("Buy", text);
  }

  void needed() {
    const plan::Work& work = shown_.work;
    const double whole = work.needed / work.ball;
    page_.say("Needed", fmt::format("{} in the work, as much as {:.3g} balls hold; each join takes {} besides ({}).",
                                    amount(work.needed, told_), whole, tape(work.allowance, told_),
                                    method_row(shown_.method).name));
  }

  [[nodiscard]] std::string saved(const WayEstimate& way) const {
    const Length less = any().waste.mean - way.waste.mean;
    if (less < shown_.work.ball / 200) return " It saves next to nothing here.";
    std::string text = fmt::format(" It saves about {} of yarn", yarn(less));
    const int fewer = any().balls.p95 - way.balls.p95;
    return text + (fewer > 0 ? fmt::format(" and {}.", balls(fewer)) : ", and no whole ball.");
  }

  void way(std::size_t k, std::string_view label) {
    const WayEstimate& way = shown_.ways[k];
    static constexpr std::string_view kWhat[] = {"taken as they come, ends unread",
                                                 "of those on hand the one that cuts least now, their starts read",
                                                 "both ends of every ball read first (ballchange order)"};
    std::string text(kWhat[k]);
    text += fmt::format(": about {} cut off and in joins (in one case of ten over {}); {}.", yarn(way.waste.mean),
                        yarn(way.waste.p90), balls(way.balls.p95));
    if (k > 0) text += saved(way);
    page_.say(label, text);
  }

  void print() {
    page_.say("Pattern",
              fmt::format("print {}: other hands take up to {:.0f} % more or less yarn a stitch, and join balls as "
                          "they come.",
                          balls(shown_.other_hands.balls.p95), shown_.other_hands_by * 100 * 2));
  }

  void how() {
    const plan::Work& work = shown_.work;
    std::string text = fmt::format(
        "{} (seed {}). One ball holds {}, give or take {:.4g} %",
        any().exact ? "Any ball is worked out exactly; Best one and In order are simulated" : "all three are simulated",
        shown_.seed, amount(work.ball, told_), work.ball_plus_minus * 100);
    if (work.knots > 0) {
      text += fmt::format("; {:.4g} knots a ball.", work.knots);
    } else {
      text += "; no knots are counted: --knots 0.2 for one in five balls.";
    }
    page_.say("How", text);
    if (shown_.balls_read > 0)
      page_.say("Read", fmt::format("the ends of {} on hand count as they were read.",
                                    balls(static_cast<int>(shown_.balls_read))));
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
