#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "base/number.hpp"
#include "show/page.hpp"
#include "show/swatch.hpp"

namespace ballchange {
namespace {

constexpr double kFourInches = 10.16;  // cm
constexpr double kVagueYarn = 0.03;    // a share; more stitches at once would tell better
constexpr double kUsualStitches = 20;  // in 10 cm, where none were counted

std::string mm_words(double mm) { return plain_number(mm, 3) + " mm"; }

// No more digits than the doubt allows.
std::string count_words(double count, double doubt) {
  return plain_number(doubt >= 0.5 ? std::round(count * 2) / 2 : count, 1);
}

std::string doubt_words(double doubt) {
  constexpr double vague = 2;
  const double step = doubt < vague ? 0.1 : 0.5;
  return plain_number(std::max(1.0, std::round(doubt / step)) * step, 1);
}

class SwatchPage {
 public:
  SwatchPage(const SwatchShown& shown, const Screen& screen, Told told) : shown_(shown), page_(screen, told) {}

  std::string take() {
    if (shown_.next) next();
    for (const SizeGauge& gauge : shown_.gauges) size(gauge);
    if (shown_.yarn_class != nullptr) usual();
    turn();
    sharper();
    for (const std::string& note : shown_.size_notes) page_.say("Size", note + ".");
    if (shown_.next) how();
    if (shown_.has_yarn) colours();
    return page_.take();
  }

 private:
  [[nodiscard]] std::string_view rows_word() const { return shown_.working == Working::rows ? "rows" : "rounds"; }
  [[nodiscard]] bool inches() const { return page_.told() == Told::inches; }
  [[nodiscard]] double span() const { return inches() ? kFourInches : 10; }  // cm
  [[nodiscard]] std::string_view span_words() const { return inches() ? "4 in" : "10 cm"; }
  [[nodiscard]] double in_span(Length one) const { return span() / one.cm(); }
  [[nodiscard]] double doubt_in_span(const GaugeMean& mean) const { return mean.give_or_take_in_10cm() * span() / 10; }
  [[nodiscard]] const SizeGauge& in_hand() const { return shown_.gauges[shown_.in_hand]; }

  [[nodiscard]] std::string counted(const GaugeMean& mean, std::string_view what) const {
    const double doubt = doubt_in_span(mean);
    return fmt::format("{} {} in {}, give or take {}", count_words(in_span(mean.mean), doubt), what, span_words(),
                       doubt_words(doubt));
  }

  [[nodiscard]] std::string wanted_words(const std::optional<Length>& stitch, const std::optional<Length>& row) const {
    std::string text;
    if (stitch) {
      const std::string count = plain_number(in_span(*stitch), 1);
      text = fmt::format("{} stitch{}", count, count == "1" ? "" : "es");
    }
    if (row) text += fmt::format("{}{} {}", text.empty() ? "" : " and ", plain_number(in_span(*row), 1), rows_word());
    return text + fmt::format(" in {}", span_words());
  }

  // Yarn to a tenth of a millimetre: a row adds it up.
  [[nodiscard]] std::string fine(Length length) const {
    return inches() ? plain_number(length.cm() / 2.54, 2) + " in" : plain_number(length.cm(), 2) + " cm";
  }
  [[nodiscard]] std::string fine_doubt(Length doubt) const {
    const double value = doubt.cm() / (inches() ? 2.54 : 1);
    const double step = value > 0.1 ? 0.05 : 0.01;
    return plain_number(std::max(1.0, std::ceil(value / step - 1e-9)) * step, 2);
  }

  void size(const SizeGauge& gauge) {
    std::vector<std::string> parts;
    if (gauge.stitch) parts.push_back(counted(*gauge.stitch, "stitches"));
    if (gauge.row) parts.push_back(counted(*gauge.row, rows_word()));
    if (gauge.yarn) {
      std::string yarn = fmt::format("{} of yarn a stitch, give or take {}", fine(gauge.yarn->mean),
                                     fine_doubt(gauge.yarn->give_or_take()));
      if (shown_.pattern.of > 1) yarn += fmt::format(", the mean over {} stitches", shown_.pattern.of);
      parts.push_back(std::move(yarn));
    }
    std::string text = fmt::format("{}", fmt::join(parts, "; "));
    if (gauge.swatches > 1) text += fmt::format("; from {} swatches", gauge.swatches);
    page_.say(gauge.mm ? mm_words(*gauge.mm) : "Gauge", text + ".");
  }

  // What the size is changed from: the nearest swatched.
  [[nodiscard]] double swatched_near(double mm) const {
    std::optional<double> best;
    for (const SizeGauge& gauge : shown_.gauges) {
      if (gauge.mm && (!best || std::abs(*gauge.mm - mm) < std::abs(*best - mm))) best = gauge.mm;
    }
    return *best;
  }

  [[nodiscard]] std::string expected(const ExpectedGauge& at) const {
    std::string text;
    if (at.stitch) text = counted(*at.stitch, "stitches");
    if (at.row) text += (text.empty() ? "" : "; ") + counted(*at.row, rows_word());
    return text;
  }

  void next() {
    const NextSize& next = *shown_.next;
    const ExpectedGauge& best = *next.best;
    const std::string tool(tool_name(shown_.tool));
    switch (next.reach) {
      case Reach::keep:
        page_.say("Keep", fmt::format("{}: it gives the {} wanted, as near as the swatch tells.", size_words(best.size),
                                      wanted_words(shown_.wanted->stitch, shown_.wanted->row)));
        return;
      case Reach::try_next:
        page_.say("Next", fmt::format("try {}{}. Expect about {}; swatch it and count.", size_words(best.size),
                                      instead(best.size.mm, tool), expected(best)));
        return;
      case Reach::at_odds:
        at_odds(next, tool);
        return;
      case Reach::no_size:
      case Reach::out_of_yarn:
        not_reached(next, tool);
    }
  }

  // What the size is changed from, and why.
  [[nodiscard]] std::string instead(double mm, const std::string& tool) const {
    const auto swatched = [&](auto side) {
      return std::any_of(shown_.gauges.begin(), shown_.gauges.end(),
                         [&](const SizeGauge& gauge) { return gauge.mm && side(*gauge.mm, mm); });
    };
    if (swatched(std::less<>()) && swatched(std::greater<>())) return ", between the sizes swatched";
    const double from = swatched_near(mm);
    return fmt::format(" instead of {}: a {} {} makes {} {}", plain_number(from, 3), mm < from ? "thinner" : "thicker",
                       tool, mm < from ? "more" : "fewer", shown_.wanted->stitch ? "stitches" : rows_word());
  }

  void at_odds(const NextSize& next, const std::string& tool) {
    page_.say(fmt::format("Can't be reached with one {}: {} want {}, and {} want {}.", tool,
                          wanted_words(shown_.wanted->stitch, {}), size_words(next.for_stitches->size),
                          wanted_words({}, shown_.wanted->row), size_words(next.for_rows->size)));
    page_.say("Next", fmt::format("meet the stitches, as the width can't be mended later: {}, about {}. Then work as "
                                  "many {} as the height takes, or try a stitch that is {}.",
                                  size_words(next.for_stitches->size), counted(*next.for_stitches->stitch, "stitches"),
                                  rows_word(), *next.rows_at_mm < *next.stitches_at_mm ? "less tall" : "taller"));
  }

  // "hook of about 7.5 mm", to so many parts of a millimetre.
  static std::string tool_words(const std::string& tool, double mm, int parts) {
    constexpr double thinnest = 0.5, thickest = 60;
    if (mm < thinnest) return tool + " thinner than any that is sold";
    if (mm > thickest) return tool + " thicker than any that is sold";
    return fmt::format("{} of about {}", tool, mm_words(std::round(mm * parts) / parts));
  }

  void not_reached(const NextSize& next, const std::string& tool) {
    const ExpectedGauge& best = *next.best;
    // Which of both can't be: the one whose size is farther off.
    const double near = swatched_near(best.size.mm);
    const auto far = [near](const std::optional<double>& mm) { return mm ? std::abs(std::log(*mm / near)) : -1; };
    const bool stitches = far(next.stitches_at_mm) >= far(next.rows_at_mm);
    const double mm = stitches ? *next.stitches_at_mm : *next.rows_at_mm;
    const std::string what = stitches ? wanted_words(shown_.wanted->stitch, {}) : wanted_words({}, shown_.wanted->row);
    const bool thinner = mm < near;
    if (next.reach == Reach::out_of_yarn) {
      page_.say(fmt::format(
          "Can't be reached with this yarn: {} would take a {}, too far from {} for the fabric to stay the same.", what,
          tool_words(tool, mm, 2), mm_words(near)));
    } else {
      page_.say(fmt::format("Can't be reached: {} would take a {}, and none is sold near enough.", what,
                            tool_words(tool, mm, 10)));
    }
    page_.say("Next", fmt::format("a {} yarn. With this one {} comes nearest: about {}.",
                                  thinner ? "thinner" : "thicker", size_words(best.size), expected(best)));
  }

  void how() {
    int sizes = 0;
    for (const SizeGauge& gauge : shown_.gauges) sizes += gauge.mm ? 1 : 0;
    if (shown_.next->reach == Reach::keep) return;
    if (sizes == 1) {
      page_.say("How",
                fmt::format("from one size: a tenth thicker is taken to make stitches a twentieth wider and {} as much "
                            "taller, as is usual; a swatch of another size tells.",
                            rows_word()));
    }
    page_.say("Mind", "hands differ by several sizes at one gauge: go by the swatch, not by the size a pattern names.");
  }

  void usual() {
    const YarnClass& one = *shown_.yarn_class;
    const bool hook = shown_.tool == Tool::hook;
    std::string text;
    for (const SizeGauge& gauge : shown_.gauges) {
      if (gauge.stitch) text += of_stitches(one, gauge, hook);
      if (gauge.mm) text += of_size(one, *gauge.mm, hook);
    }
    page_.say("Class",
              fmt::format("{} ({}): {}", one.name, one.number, text.empty() ? "as usual for it." : text.substr(1)));
  }

  static std::string range(const UsualRange& usual) {
    return usual.low <= 0 ? plain_number(usual.high, 3)
                          : fmt::format("{} to {}", plain_number(usual.low, 3), plain_number(usual.high, 3));
  }

  [[nodiscard]] static std::string of_stitches(const YarnClass& one, const SizeGauge& gauge, bool hook) {
    const UsualRange& usual = hook ? one.crochet_stitches : one.knit_stitches;
    const double count = kFourInches / gauge.stitch->mean.cm();
    const double doubt = gauge.stitch->give_or_take_in_10cm() * kFourInches / 10;
    const Against against = against_stitches(usual, count);
    if (against == Against::within) return {};
    const std::string_view in = !hook ? "stocking stitch" : one.number == 0 ? "double crochet" : "single crochet";
    std::string text = fmt::format(" {} stitches in 4 in are {} than the {} usual in {}", count_words(count, doubt),
                                   against == Against::above ? "more" : "fewer", range(usual), in);
    const bool close =
        hook && against == Against::above && against_stitches(one.knit_stitches, count) != Against::above;
    return text + (close ? ", but not for a close stitch." : ".");
  }

  [[nodiscard]] static std::string of_size(const YarnClass& one, double mm, bool hook) {
    const UsualRange& usual = hook ? one.hook_mm : one.needle_mm;
    const Against against = against_size(usual, mm);
    if (against == Against::within) return {};
    return fmt::format(" {} is {} than the usual {} mm.", mm_words(mm),
                       against == Against::above ? "thicker" : "thinner",
                       usual.low == usual.high ? plain_number(usual.low, 3) : range(usual));
  }

  void turn() {
    const TurnShown& turn = shown_.turn;
    const std::string row = turn.stitches
                                ? fmt::format("a {} of {}", row_word(shown_.working), stitches(*turn.stitches))
                                : fmt::format("each {}", row_word(shown_.working));
    if (turn.chain == TurningChain::counts) {
      page_.say("Turn",
                fmt::format("the chain counts as a stitch: {} is the chain and {}. Its yarn is in the count, so "
                            "a turn takes none besides.",
                            row, turn.stitches ? fmt::format("{} worked", *turn.stitches - 1) : "one worked fewer"));
      return;
    }
    if (turn.chain == TurningChain::apart) {
      page_.say("Turn", fmt::format("the chain counts for no stitch: {} is {}and the chain besides. {}", row,
                                    turn.stitches ? fmt::format("{} worked ", *turn.stitches) : "all its stitches ",
                                    turn_yarn()));
      return;
    }
    if (turn.yarn && *turn.yarn > Length())
      page_.say("Turn", fmt::format("takes {} of yarn beside the stitches.", turn_amount()));
  }

  [[nodiscard]] std::string turn_yarn() const {
    const TurnShown& turn = shown_.turn;
    if (!turn.yarn)
      return "What a turn takes isn't known: add to the swatch what a row takes, as: a row of 33 st takes 1.1 m.";
    if (turn.guessed) {
      return fmt::format("It is taken for as much yarn as a stitch, {}; measured, tell it with --yarn-per-turn.",
                         fine(*turn.yarn));
    }
    return fmt::format("A turn takes {} of yarn beside the stitches.", turn_amount());
  }
  [[nodiscard]] std::string turn_amount() const {
    if (!shown_.turn.doubt) return fine(*shown_.turn.yarn);
    return fmt::format("{}, give or take {},", tape(*shown_.turn.yarn, page_.told()),
                       give_or_take(*shown_.turn.doubt, page_.told()));
  }

  void sharper() {
    if (!shown_.sharper) return;
    const Sharper& sharper = *shown_.sharper;
    const bool yarn = in_hand().yarn && in_hand().yarn->share > kVagueYarn;
    page_.say("Sharper", fmt::format("a swatch {} wide would tell the stitches to {}; one more{}, to {}.{}",
                                     tape(sharper.wider, page_.told()), doubt_words(doubt_in_span(sharper.with_wider)),
                                     in_hand().mm ? " at " + mm_words(*in_hand().mm) : std::string(),
                                     doubt_words(doubt_in_span(sharper.with_another)),
                                     yarn ? " For the yarn, measure more stitches at once." : ""));
  }

  void colours() {
    if (shown_.next && shown_.next->reach != Reach::keep) {
      page_.say("Colours",
                fmt::format("can be judged once a swatch meets the gauge, in stitches and in {}.", rows_word()));
      return;
    }
    if (!in_hand().yarn) {
      page_.say("Colours",
                "how they fall needs the yarn in a stitch: add to the swatch what some took, as 20 st take 41 cm.");
      return;
    }
    page_.say("Colours", "how they fall at this gauge:");
    typed(command());
  }

  // Broken before an option where it is too long, so that it can be copied as it stands.
  void typed(std::string_view text) {
    const std::size_t most = page_.screen().text_columns() - kLabelWidth - 6;
    std::string_view indent;
    while (text.size() > most) {
      std::size_t at = text.rfind(" --", most);
      if (at == std::string_view::npos || at == 0) at = text.find(" --", 1);
      if (at == std::string_view::npos) break;
      page_.typed(fmt::format("{}{} \\", indent, text.substr(0, at)));
      text.remove_prefix(at + 1);
      indent = "    ";
    }
    page_.typed(fmt::format("{}{}", indent, text));
  }

  [[nodiscard]] std::string command() const {
    const SizeGauge& gauge = in_hand();
    std::string text = fmt::format("ballchange gauge {} --yarn-per-stitch {}cm", shown_.yarn_word,
                                   plain_number(gauge.yarn->mean.cm(), 2));
    if (shown_.turn.yarn && *shown_.turn.yarn > Length()) {
      text += fmt::format(" --yarn-per-turn {}cm", plain_number(shown_.turn.yarn->cm(), 1));
    }
    if (gauge.stitch) text += fmt::format(" --stitches-in-10cm {}", plain_number(gauge.stitch->in_10cm(), 1));
    if (gauge.row) text += fmt::format(" --rows-in-10cm {}", plain_number(gauge.row->in_10cm(), 1));
    if (shown_.pattern.of > 1) text += fmt::format(" --multiple {}", shown_.pattern.of);
    if (shown_.pattern.plus > 0) text += fmt::format("+{}", shown_.pattern.plus);
    if (shown_.turn.stitches) return text + fmt::format(" --stitches {}", *shown_.turn.stitches);
    // From a scarf to a wrap: 20 to 60 cm.
    const double in_10cm = gauge.stitch ? gauge.stitch->in_10cm() : kUsualStitches;
    return text + fmt::format(" --widths {:.0f}-{:.0f}", std::max(1.0, 2 * in_10cm), 6 * in_10cm);
  }

  const SwatchShown& shown_;
  Page page_;
};

}  // namespace

std::string_view tool_name(Tool tool) { return tool == Tool::hook ? "hook" : "needle"; }

std::string size_words(const ToolSize& size) {
  return mm_words(size.mm) + (size.name.empty() ? std::string() : fmt::format(" (US {})", size.name));
}

std::string swatch_screen(const SwatchShown& shown, const Screen& screen, Told told) {
  return SwatchPage(shown, screen, told).take();
}

}  // namespace ballchange
