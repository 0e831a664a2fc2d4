#include <fmt/core.h>

#include <algorithm>

#include "base/text.hpp"
#include "show/order.hpp"
#include "show/page.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostNamed = 5;  // balls, and lines of other ends

bool not_read(const OpenEnd& end) { return end.why == OpenEnd::Why::not_read; }

class OpenText {
 public:
  OpenText(const OpenEndsShown& shown, const Screen& screen, Told told) : shown_(shown), page_(screen, told) {}

  std::string take() {
    if (shown_.too_little) {
      page_.say(too_few());
      return page_.take();
    }
    std::vector<std::string> all;
    for (const OpenEnd& end : shown_.ends) {
      if (!not_read(end)) {
        const bool both = !all.empty() && runs_against(end) && all.back() == said_of_both(end);
        if (!both) all.push_back(runs_against(end) ? said_of_both(end) : text(end));
      } else if (const std::string unread = unread_balls(); std::find(all.begin(), all.end(), unread) == all.end()) {
        all.push_back(unread);
      }
    }
    page_.say("Can't tell yet " + all.front());
    instead();
    const std::size_t told = std::min(all.size(), 1 + kMostNamed);
    for (std::size_t k = 1; k < told; ++k) page_.say("Also", all[k]);
    if (all.size() > told) page_.say("Also", fmt::format("{} more ends, once these are known.", all.size() - told));
    return page_.take();
  }

 private:
  [[nodiscard]] std::string too_few() const {
    const std::string balls =
        shown_.balls == 1 ? "The one ball there is holds" : fmt::format("All {} balls together hold", shown_.balls);
    return fmt::format("{} {} too little for the {} needed, even if nothing is cut off: get more first.", balls,
                       amount(*shown_.too_little, page_.told()), amount(*shown_.need, page_.told()));
  }

  // What answers without reading on.
  void instead() {
    if (!shown_.instead) return;
    const std::string need = fmt::format("the rows still need {}", amount(shown_.instead->need, page_.told()));
    const std::size_t balls = shown_.instead->balls;
    if (balls == 0) {
      return page_.say("Or", need + ", which the yarn in the work holds: perhaps no other ball is needed.");
    }
    const std::string hold = fmt::format("{}, which {} of the other balls {}.", need,
                                         balls == 1 ? "one" : std::to_string(balls), balls == 1 ? "holds" : "hold");
    if (!shown_.command.empty()) {
      page_.say("Or", hold + " Their order at once:");
      return page_.typed(shown_.command);
    }
    page_.say("Or",
              fmt::format("{} Their order at once: add {}", hold, need_option(shown_.instead->need, page_.told())));
  }

  // Whether both ends of its ball fit only the other way round.
  [[nodiscard]] bool runs_against(const OpenEnd& one) const {
    return std::count_if(shown_.ends.begin(), shown_.ends.end(), [&](const OpenEnd& end) {
             return end.ball == one.ball && end.why == OpenEnd::Why::other_way;
           }) == 2;
  }

  // The end that the ball is worked from comes first.
  [[nodiscard]] std::string said_of_both(const OpenEnd& one) const {
    const auto first =
        std::find_if(shown_.ends.begin(), shown_.ends.end(), [&](const OpenEnd& end) { return end.ball == one.ball; });
    const std::string ball = printable(one.ball, 40);
    return fmt::format(
        "which way ball {0} runs: its two ends fit only the other way round. If both were written down from their "
        "loose ends, work it from its {1} end: exchange them in --ends, or in a project: ballchange ball --ball {2} "
        "--from {1}. If not, write each last colour first.",
        ball, first->end == "outside" ? "inside" : "outside", typed_path(one.ball));
  }

  // All in one.
  [[nodiscard]] std::string unread_balls() const {
    std::vector<std::string> names;
    std::string ask;
    for (const OpenEnd& end : shown_.ends) {
      if (!not_read(end)) continue;
      names.push_back(printable(end.ball, 40));
      ask = end.ask;
    }
    if (names.size() == 1) return fmt::format("where ball {} lies: none of its ends is read. {}", names[0], ask);
    if (names.size() > kMostNamed + 1) {
      const std::size_t more = names.size() - kMostNamed;
      names.resize(kMostNamed);
      names.push_back(fmt::format("{} more", more));
    }
    return fmt::format("where balls {} lie: none of their ends is read. Write down what at least one of each shows.",
                       and_list(names));
  }

  static std::string text(const OpenEnd& end) {
    const std::string ball = printable(end.ball, 40);
    const std::string which = end.end.empty() ? "ball " + ball : fmt::format("the {} end of ball {}", end.end, ball);
    switch (end.why) {
      case OpenEnd::Why::unsettled:
        return fmt::format("where {} lies: {}", which, end.ask);
      case OpenEnd::Why::no_fit:
        return fmt::format("where {} lies, as it fits nowhere on the repeat: {}", which, end.ask);
      case OpenEnd::Why::two_ways:
        return fmt::format("which way ball {} runs, as its two ends run opposite ways. {}", ball, end.ask);
      case OpenEnd::Why::not_read:
      case OpenEnd::Why::other_way:
        break;
    }
    return fmt::format(
        "which way ball {} runs: its {} end fits only the other way round. Was that written down from its loose end? "
        "If not, write it last colour first.",
        ball, end.end);
  }

  const OpenEndsShown& shown_;
  Page page_;
};

}  // namespace

std::string need_word(Length need, Told told) {
  std::string word = at_least(need, told);
  const std::size_t unit = word.rfind(' ');
  return word.substr(0, unit) + (told == Told::stitches ? "st" : word.substr(unit + 1));
}

std::string need_option(Length need, Told told) {
  const std::string word = need_word(need, told);
  const std::string_view quote = word.find(' ') == std::string::npos ? "" : "\"";
  return fmt::format("--need {0}{1}{0}", quote, word);
}

std::string open_ends_screen(const OpenEndsShown& shown, const Screen& screen, Told told) {
  return OpenText(shown, screen, told).take();
}

}  // namespace ballchange
