#include <fmt/core.h>

#include "base/text.hpp"
#include "show/check.hpp"
#include "show/check_project.hpp"
#include "show/cut.hpp"
#include "show/join_words.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

bool wants_asking(const Strand& strand) {
  return strand.placing.verdict != Verdict::settled || strand.placing.ask.has_value();
}

void type(Page& page, std::string_view label, const std::optional<ToType>& line, std::string_view before = {}) {
  if (!line) return;
  page.say(label, fmt::format("{}{}", before, line->how));
  page.typed(line->line);
  if (!line->otherwise.empty()) page.say("Or", line->otherwise);
}

void found_so_far(Page& page, const CheckShown& shown) {
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    const Placing& placing = strand->placing;
    if (placing.candidates.empty()) continue;
    const PlaceShown place{*shown.yarn, strand->reading, placing};
    const ToldCandidate best = told_candidates(place, page.told()).front();
    const std::string sure = placing.verdict == Verdict::settled ? fmt::format(", {} sure", percent(placing.sureness))
                                                                 : fmt::format(" ({})", best.chance());
    page.say(strand->reading.end == End::old_end ? "Old end" : "New end", best.text + sure + ".");
  }
}

// Both fit only the other way round: one question, not two.
void both_turned(Page& page, const CheckShown& shown) {
  page.say("Can't tell yet: were both strands written down from their loose ends? They only fit the other way round.");
  const Placing& placing = shown.old_strand.placing;
  const bool backward = placing.best().direction == Direction::backward;
  page.say("Then",
           fmt::format("if they were, the balls are worked from their {} ends; add:", backward ? "other" : "usual"));
  page.typed(expecting(placing, "--from"));
  const auto old_turned = turned_reading(shown.old_strand.reading, shown.colours, page.told());
  const auto new_turned = turned_reading(shown.new_strand.reading, shown.colours, page.told());
  if (!old_turned || !new_turned) {
    type(page, "Or", old_turned ? old_turned : new_turned, "if not, ");
    return;
  }
  const bool asks = (old_turned->line + new_turned->line).find('?') != std::string::npos;
  page.say("Or", fmt::format("if not, type both the other way round{}:",
                             asks ? ", with the length from the loose end for each ?" : ""));
  page.typed(old_turned->line);
  page.typed(new_turned->line);
}

// With whole lengths: how long the first stretch is says nothing until the change that ends it is seen.
void next_colour_screen(Page& page, const CheckShown& shown) {
  const End end = *shown.advice.ask_next_colour;
  const Reading& reading = (end == End::old_end ? shown.old_strand : shown.new_strand).reading;
  const std::string colour = printable(shown.colours[reading.entries.front().colour].name);
  const std::string_view comes = end == End::old_end ? "comes before" : "follows";
  page.say(fmt::format("Can't tell yet: which colour {} {} on the {}?", comes, colour, strand_name(end)));
  if (reading.loose) {
    return page.say("Then", fmt::format("count the {0} stitches in the work back to where {0} began, and add that "
                                        "colour after them.",
                                        colour));
  }
  Reading further = reading;
  std::vector<Colour> colours = shown.colours;
  further.entries.push_back({colours.size(), std::nullopt, 0, 1});
  colours.push_back({"?", std::nullopt});
  page.say("Then", fmt::format("measure on to where {} {}, and add that colour for the ?:", colour,
                               end == End::old_end ? "begins" : "ends"));
  page.typed(fmt::format("{} {}", strand_option(end), typed_reading(further, colours, page.told())));
  page.say("Or",
           fmt::format("if {} {} right where you stopped, a bar:", colour, end == End::old_end ? "begins" : "ends"));
  Reading whole = reading;
  whole.bar_at_open_end = true;
  page.typed(fmt::format("{} {}", strand_option(end), typed_reading(whole, shown.colours, page.told())));
}

void or_either_way(Page& page) {
  page.say("Or", "if the colours of this yarn read the same from both ends of a ball, add:");
  page.typed("--either-way");
}

// With whole lengths: more of a colour than a whole section of it.
void too_long_screen(Page& page, const CheckShown& shown) {
  const TooLong& what = *shown.advice.too_long;
  const std::string colour = printable(what.colour);
  page.say(fmt::format("Can't tell yet: the {} shows {} of {}, but a whole {} was told as {}.", strand_name(what.end),
                       tape(what.read, page.told()), colour, colour, tape(what.whole, page.told())));
  page.say("Then",
           fmt::format("measure both again; where a whole {} really is longer, tell it so with --whole.", colour));
}

// With whole lengths nothing but the order of the colours tells which way a ball runs.
void opposite_screen(Page& page, const CheckShown& shown) {
  const joining::Opposite& what = *shown.advice.opposite;
  const std::string colour = printable(shown.colours[what.colour].name);
  const std::string neighbour = printable(shown.colours[what.neighbour].name);
  page.say(
      fmt::format("Can't tell yet: {0} comes before {1} on the old strand and after it on the new. Does the fresh "
                  "ball run the other way?",
                  neighbour, colour));
  page.say("Then",
           fmt::format("on both strands write down one colour more, beyond {}: how they go on tells.", neighbour));
  page.say("Or", "try the fresh ball's other end: if the colours follow there as on the old strand, take that.");
}

void measure_more_screen(Page& page, const CheckShown& shown) {
  if (shown.advice.too_long) return too_long_screen(page, shown);
  if (shown.advice.opposite) {
    opposite_screen(page, shown);
    return or_either_way(page);
  }
  if (shown.advice.ask_next_colour) return next_colour_screen(page, shown);
  if (shown.yarn == nullptr) {
    const End end = shown.advice.ask_first_length.value_or(End::new_end);
    const Strand& strand = end == End::old_end ? shown.old_strand : shown.new_strand;
    return page.say("Can't tell yet: " + first_length_text(strand.reading, shown.colours));
  }
  if (seems_turned(shown.old_strand.placing) && seems_turned(shown.new_strand.placing)) {
    both_turned(page, shown);
    return found_so_far(page, shown);
  }
  bool first = true;
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    if (!wants_asking(*strand) || strand->placing.verdict == Verdict::no_fit) continue;
    const PlaceShown place{*shown.yarn, strand->reading, strand->placing};
    const std::string text = what_would_settle(place, page.told());
    page.say(first ? "Can't tell yet: " + text : "And " + text);
    // --from holds for both ends where the other one does not say otherwise.
    const bool new_alone = strand == &shown.new_strand && !shown.old_strand.placing.ask;
    type(page, "Then", how_to_answer(place, page.told(), new_alone ? "--new-from" : "--from"));
    first = false;
  }
  found_so_far(page, shown);
}

void or_written_from_within(Page& page, const CheckShown& shown, const Strand& strand) {
  type(page, "Or", turned_reading(strand.reading, shown.colours, page.told()),
       fmt::format("if the {} was written from the {} towards {}, ", strand_name(strand.reading.end),
                   strand.reading.end == End::old_end ? "work" : "ball", shown.wish.knot ? "the knot" : "its end"));
}

// Working the fresh ball, or what is left beyond a knot, the other way round.
struct Turning {
  std::string_view how, then;
};
Turning turning(const CheckShown& shown) {
  if (shown.new_strand.cut_short) {
    return {"turn the offcut round", "record that with --from of ballchange ball, and check again."};
  }
  return {shown.wish.knot ? "undo the knot and work the rest of this ball from its other end"
                          : "work it from its other end",
          "write down that end from its loose end inward, and check again with it as --new."};
}
bool is_whole_ball(const CheckShown& shown) { return !shown.new_strand.cut_short && !shown.wish.knot; }

// The strand in the work is read against the grain, and slips more easily than a ball runs the other way.
void old_turned_screen(Page& page, const CheckShown& shown) {
  const Strand& strand = shown.old_strand;
  page.say(shown.project != nullptr && shown.project->old_against_record.value_or(false)
               ? "Don't cut yet: was the old strand written down from its loose end? By what is on record the work "
                 "runs the other way."
               : "Don't cut yet: " + question_text(*strand.placing.ask, {*shown.yarn, strand.reading, strand.placing}));
  if (const auto turned = turned_reading(strand.reading, shown.colours, page.told())) {
    type(page, "Then", turned, "if not, ");
  } else {
    page.say("Then", "if not, type it again from the loose end inward, hook where the hook is.");
  }
  const Turning ball = turning(shown);
  page.say("Or",
           fmt::format("if it was, {}{}, {}", is_whole_ball(shown) ? "the fresh ball must run that way too: " : "",
                       ball.how, ball.then));
  if (seems_turned(shown.new_strand.placing)) or_written_from_within(page, shown, shown.new_strand);
}

void turn_ball_screen(Page& page, const CheckShown& shown) {
  if (seems_turned(shown.old_strand.placing)) return old_turned_screen(page, shown);
  page.say("Don't cut: the two strands run opposite ways, so these ends can never be in step.");
  const Turning ball = turning(shown);
  page.say(shown.wish.knot ? "Ball" : "New ball",
           fmt::format("{}.{}", ball.how,
                       is_whole_ball(shown)
                           ? " If this end came off the outside, the other is inside the ball: feel in the middle and "
                             "pull it out. If it came from the middle, the other is the one outside."
                           : ""));
  page.say("Then", ball.then);
  if (shown.new_strand.cut_short) return;
  if (shown.yarn != nullptr) {
    or_written_from_within(page, shown, shown.new_strand);
    // Of balls wound by hand either may run either way, and either may have been written from the wrong side; the
    // record may tell that of the old.
    const bool seems_from_within = !seems_turned(shown.new_strand.placing);
    const bool from_within =
        shown.project == nullptr ? seems_from_within : shown.project->old_against_record.value_or(seems_from_within);
    if (from_within) or_written_from_within(page, shown, shown.old_strand);
  }
  if (shown.advice.opposite) or_either_way(page);
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
  if (shown.advice.verdict != JoinVerdict::cut) {
    page.add(other_balls_lines(shown, screen.text_columns(), told));
    if (const std::string left_out = not_ranked_text(shown, page.told()); !left_out.empty())
      page.say("Unranked", left_out);
    for (const std::string& mind : record_minds(shown, page.told())) page.say("Mind", mind);
  }
  if (!verbose || shown.yarn == nullptr) return page.take();
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    page.add(reasons_text({*shown.yarn, strand->reading, strand->placing}, screen, told));
  }
  return page.take();
}

std::string remark_text(Remark remark, const CheckShown& shown, Told told) {
  const Advice& advice = shown.advice;
  switch (remark) {
    case Remark::allowance_outside_range: {
      const Reckoning reckoning = shown.yarn != nullptr ? shown.yarn->reckoning : Reckoning::centimetres;
      const auto range = allowance_range(advice.method, reckoning, shown.fabric.yarn_per_stitch);
      const std::string usual = range ? fmt::format(" ({})", tape_range(range->low, range->high, told)) : std::string();
      return fmt::format("{} is outside what is usual for {}{}.", tape(advice.allowance, told),
                         method_row(advice.method).name, usual);
    }
    case Remark::ends_follow:
      return fmt::format("The two ends follow each other as they are: only the {} in the join put the colours out.",
                         tape(advice.allowance, told));
    case Remark::cut_for_edge:
      return fmt::format("The old end is cut too, {} the {}'s edge; with --edge any it is left.",
                         advice.joins.front().at_edge ? "so that the join lies at" : "to keep the join off",
                         row_word(shown.fabric.working));
    case Remark::not_enough_room:
      return fmt::format("Too little loose yarn between hook and join: ravel back {} first.",
                         ravel_text(advice.ravel_back, shown.fabric, told));
    case Remark::loose_unknown:
      if (const auto colour = shown.old_strand.reading.unmeasured_to_hook) {
        return fmt::format("To be told row and stitch, give the length of {} up to the hook.",
                           printable(shown.colours[*colour].name));
      }
      if (shown.project != nullptr) return "To be told row and stitch, put hook into --old where it is.";
      return "To be told row and stitch, put hook into --old where it is and give --row, --stitch and "
             "--yarn-per-stitch.";
    case Remark::cut_not_markable:
      return "No change of colour helps to find the cut: measure it twice.";
    case Remark::next_section:
      return "Too little of the colour is left: the next one on the new ball is used.";
    case Remark::not_seen_yet:
      return "The new end shows none of the colour yet: the next one on the new ball is used.";
    case Remark::both_backward:
      break;
  }
  return "Both strands run the other way round, which is in step again.";
}

}  // namespace ballchange
