#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "picture/strands.hpp"
#include "show/check.hpp"
#include "show/join_words.hpp"
#include "show/place.hpp"
#include "show/strands_terminal.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kAlternatives = 2;  // told; JSON has them all

// The screen as it grows.
class Page {
 public:
  Page(const Screen& screen, Told told) : screen_(screen), told_(told) {}
  void say(std::string_view text) { text_ += wrapped(text, screen_.columns); }
  void say(std::string_view label, std::string_view text) { text_ += labelled(label, text, screen_.columns); }
  // A line to copy: never wrapped.
  void typed(std::string_view text) { text_ += std::string(kLabelWidth, ' ') + std::string(text) + "\n"; }
  void add(std::string_view text) { text_ += text; }
  [[nodiscard]] const Screen& screen() const { return screen_; }
  [[nodiscard]] Told told() const { return told_; }
  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  const Screen& screen_;
  Told told_;
  std::string text_;
};

bool has(const Advice& advice, Remark remark) {
  return std::find(advice.remarks.begin(), advice.remarks.end(), remark) != advice.remarks.end();
}

bool cuts_nothing(const Join& join, Told told) {
  return join.trim_old && join.trim_new && is_nothing(*join.trim_old, told) && is_nothing(*join.trim_new, told);
}

void headline(Page& page, const CheckShown& shown, const Join& join) {
  const bool fit = join.dry_fit.has_value();
  if (join.leave_knot) return page.say("Leave the knot: the colours run on through it. Secure its ends.");
  if (cuts_nothing(join, page.told())) {
    return page.say(has(shown.advice, Remark::ends_follow)
                        ? "Cut nothing: the two ends follow each other."
                        : fmt::format("Nothing needs cutting off.{}", fit ? " Dry fit first." : ""));
  }
  if (has(shown.advice, Remark::not_enough_room)) {
    return page.say(fmt::format("Don't cut yet: ravel back {} first, too little yarn hangs loose. Then dry fit.",
                                amount(shown.advice.ravel_back, page.told())));
  }
  page.say(fit ? "Don't cut yet: dry fit first." : "Don't cut yet: mark both ends first.");
}

void costs(Page& page, const CheckShown& shown, const Join& join) {
  const Told told = page.told();
  if (join.leave_knot) return page.say("Sure", percent(shown.advice.sureness) + ".");
  std::string text = shown.yarn != nullptr ? percent(shown.advice.sureness) + ". " : std::string();
  if (join.discard && !is_nothing(*join.discard, told)) {
    text += fmt::format("Cut off {}, and {} in the join.", amount(*join.discard, told), tape(join.allowance, told));
  } else {
    text += fmt::format("The join takes {}.", tape(join.allowance, told));
    if (!join.discard) text += " What comes off besides was not measured.";
  }
  const std::string shift = shift_text(join.shift, shown.fabric, told);
  if (!shift.empty()) text += " " + shift;
  if (!is_nothing(shown.advice.out_of_step, told)) {
    text += is_nothing(join.running_shift, told)
                ? " The work is back in step."
                : fmt::format(" Out of step afterwards: {}.", tape(join.running_shift, told));
  }
  page.say(shown.yarn != nullptr ? "Sure" : "Costs", text);
}

void knot_costs(Page& page, const CheckShown& shown) {
  if (!shown.advice.cut_knot_out) return;
  const Alternative& out = *shown.advice.cut_knot_out;
  const Told told = page.told();
  page.say("Or", fmt::format("cut it out and join ({}): {} lost.", method_row(out.method).name,
                             amount(out.discard + out.allowance, told)));
}

void one_join(Page& page, const CheckShown& shown, const Join& join) {
  const Told told = page.told();
  if (!join.leave_knot) {
    page.say("Old end", end_text(shown.old_strand.reading, shown.colours, join.old_mark, join.trim_old, told));
    page.say("New end", end_text(shown.new_strand.reading, shown.colours, join.new_mark, join.trim_new, told));
    const std::string cut = cut_text(join, method_row(shown.advice.method).name, told);
    if (join.dry_fit) {
      page.say("Dry fit", dry_fit_text(join, told) + " Then " + cut);
    } else {
      page.say("Then", fmt::format("{} Overlap: {}.", cut, tape(join.allowance, told)));
    }
  }
  page.say(join.leave_knot ? "Knot" : "Lands", landing_text(join, told));
}

void other_splits(Page& page, const CheckShown& shown) {
  const std::vector<Join>& joins = shown.advice.joins;
  for (std::size_t i = 1; i < joins.size(); ++i) {
    const std::string cut = cut_text(joins[i], method_row(shown.advice.method).name, page.told());
    page.say(fmt::format("Split {}", i + 1), fmt::format("{} Lands {}", cut, landing_text(joins[i], page.told())));
  }
}

void reasons(Page& page, const CheckShown& shown) {
  if (shown.yarn == nullptr) return;
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    page.add(reasons_text({*shown.yarn, strand->reading, strand->placing}, page.screen(), page.told()));
  }
}

void cut_screen(Page& page, const CheckShown& shown, bool verbose) {
  const Join& join = shown.advice.joins.front();
  const auto scene = strands_scene(shown.colours, shown.yarn != nullptr ? &shown.yarn->repeat : nullptr,
                                   shown.old_strand, shown.new_strand, join);
  const std::string drawn = scene ? strands_text(*scene, page.screen(), page.told()) : std::string();
  if (!drawn.empty()) page.add(drawn + "\n");
  headline(page, shown, join);
  one_join(page, shown, join);
  knot_costs(page, shown);
  costs(page, shown, join);
  const auto& others = shown.advice.alternatives;
  for (std::size_t i = 0; i < std::min(others.size(), kAlternatives) && !join.leave_knot; ++i) {
    page.say("Cheaper", alternative_text(others[i], shown, page.told()));
  }
  for (const Remark remark : shown.advice.remarks) {
    const bool in_headline = remark == Remark::not_enough_room && !cuts_nothing(join, page.told());
    const bool told_already = remark == Remark::ends_follow || remark == Remark::next_section || in_headline;
    const bool has_gauge = shown.fabric.yarn_per_stitch && page.told() != Told::stitches;
    const bool wanted = remark != Remark::loose_unknown || has_gauge || verbose;
    if (!told_already && wanted) page.say("Mind", remark_text(remark, shown, page.told()));
  }
  const std::string_view caution = method_row(shown.advice.method).caution;
  if (!caution.empty() && !join.leave_knot) page.say("Care", caution);
  if (verbose) other_splits(page, shown);
}

bool wants_asking(const Strand& strand) {
  return strand.placing.verdict != Verdict::settled || strand.placing.ask.has_value();
}

bool seems_turned(const Strand& strand) {
  return strand.placing.ask && strand.placing.ask->kind == Question::Kind::wrong_way;
}

void turned_way(Page& page, const CheckShown& shown, const Strand& strand, std::string_view before) {
  const std::string turned = turned_reading(strand.reading, shown.colours, page.told());
  if (turned.empty()) return;
  page.say("Or", before);
  page.typed(turned);
}

void measure_more_screen(Page& page, const CheckShown& shown) {
  if (shown.yarn == nullptr) {
    const End end = shown.advice.ask_first_length.value_or(End::new_end);
    const Strand& strand = end == End::old_end ? shown.old_strand : shown.new_strand;
    const Question question{Question::Kind::first_length, 0, 0};
    return page.say("Can't tell yet: " + question_text(question, strand.reading, shown.colours));
  }
  bool first = true;
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    if (!wants_asking(*strand) || strand->placing.verdict == Verdict::no_fit) continue;
    const PlaceShown place{*shown.yarn, strand->reading, strand->placing};
    const std::string text = what_would_settle(place, page.told());
    page.say(first ? "Can't tell yet: " + text : "And " + text);
    if (seems_turned(*strand)) {
      turned_way(page, shown, *strand, "if not, type it the other way round:");
    }
    first = false;
  }
  if (seems_turned(shown.old_strand) && seems_turned(shown.new_strand)) {
    page.say("Or", "if both were, the balls are worked from their other ends; add:");
    page.typed("--from other");
  }
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    if (strand->placing.candidates.empty()) continue;
    page.say(strand->reading.end == End::old_end ? "Old end" : "New end",
             fmt::format(
                 "{}, {} sure.",
                 candidate_text({*shown.yarn, strand->reading, strand->placing}, strand->placing.best(), page.told()),
                 percent(strand->placing.probability())));
  }
}

void turn_ball_screen(Page& page, const CheckShown& shown) {
  page.say("Don't cut: the two strands run opposite ways, so these ends can never be in step.");
  page.say("New ball",
           "work it from its other end. If this end came off the outside, the other is inside the ball: feel in the "
           "middle and pull it out. If it came from the middle, the other is the one outside.");
  page.say("Then", "write down that end from its loose end inward, and check again with it as --new.");
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    if (!seems_turned(*strand)) continue;
    turned_way(page, shown, *strand,
               fmt::format("if the {} was written from the ball towards its end, type it the other way round:",
                           strand_name(strand->reading.end)));
  }
}

void no_fit_screen(Page& page, const CheckShown& shown) {
  bool first = true;
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    if (strand->placing.verdict != Verdict::no_fit) continue;
    const std::string text = misfit_text({*shown.yarn, strand->reading, strand->placing}, page.told());
    page.say(first ? "This fits nowhere on the repeat: " + text : "And " + text);
    first = false;
  }
  page.say("Measure that stretch again, or see whether the yarn is the right one.");
}

}  // namespace

std::string check_screen(const CheckShown& shown, const Screen& screen, Told told, bool verbose) {
  Page page(screen, told);
  switch (shown.advice.verdict) {
    case JoinVerdict::cut:
      cut_screen(page, shown, verbose);
      break;
    case JoinVerdict::measure_more:
      measure_more_screen(page, shown);
      break;
    case JoinVerdict::turn_ball:
      turn_ball_screen(page, shown);
      break;
    case JoinVerdict::no_fit:
      no_fit_screen(page, shown);
      break;
  }
  if (verbose) reasons(page, shown);
  return page.take();
}

std::string remark_text(Remark remark, const CheckShown& shown, Told told) {
  const Advice& advice = shown.advice;
  switch (remark) {
    case Remark::allowance_outside_range: {
      const Reckoning reckoning = shown.yarn != nullptr ? shown.yarn->reckoning : Reckoning::centimetres;
      const auto range = allowance_range(advice.method, reckoning, shown.fabric.yarn_per_stitch);
      const std::string usual =
          range ? fmt::format(" ({} to {})", tape_number(range->low, told), tape(range->high, told)) : std::string();
      return fmt::format("{} is outside what is usual for {}{}.", tape(advice.allowance, told),
                         method_row(advice.method).name, usual);
    }
    case Remark::ends_follow:
      return "The two ends follow each other.";
    case Remark::not_enough_room:
      return fmt::format("Too little loose yarn between hook and join: ravel back {} first.",
                         amount(advice.ravel_back, told));
    case Remark::loose_unknown:

      return "To be told row and stitch, put hook into --old where it is and give --row, --stitch and "
             "--yarn-per-stitch.";
    case Remark::cut_not_markable:
      return "No change of colour helps to find the cut: measure it twice.";
    case Remark::next_section:
      return "Too little of the colour is left: the next one on the new ball is used.";
    case Remark::both_backward:
      break;
  }
  return "Both strands run backward, as told.";
}

}  // namespace ballchange
