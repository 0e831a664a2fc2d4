#include <fmt/core.h>

#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "show/check_project.hpp"
#include "show/creep.hpp"
#include "show/entry_text.hpp"
#include "show/place.hpp"

// What speaks against the readings in hand, or is to be settled before a cut.
namespace ballchange {
std::string too_much_left_text(const TooMuchLeft& much, Told told) {
  const std::string in_hand =
      much.loose ? fmt::format(", but its end is {} from the hook", amount(*much.loose, told)) : std::string();
  return fmt::format(
      "By the record ball {} still holds {}{}: tell where the {} with --row and --stitch (or it is "
      "another ball, or a knot).",
      printable(much.ball, 40), amount(much.left, told), in_hand, much.cut ? "join fell" : "hook is");
}

std::string kinked_text() {
  return "The old end was ravelled back, and kinked yarn reads short: its lengths are taken as less sure. Damp it, let "
         "it dry, measure again and tell --ravelled damped.";
}

namespace {

std::string typed_shift(Length shift, Told told) {
  return (shift < Length() ? "-" : "") + typed_length(rounded(abs(shift), told), told);
}

}  // namespace

std::string contested_text(const ContestedShift& shift, Told told) {
  return fmt::format(
      "Are the colours {} or {}? The joined sections were counted with {} of yarn a stitch; {} it is {}. Measure a "
      "swatch, and tell which holds: --out-of-step {} or --out-of-step {}.",
      shift_words(shift.as_counted, told), shift_words(shift.now, told), stitch_amount(shift.stitch, told),
      shift.by_scale ? "by the scale" : "by the gauge told since", stitch_amount(shift.stitch_now, told),
      typed_shift(shift.as_counted, told), typed_shift(shift.now, told));
}

std::string contested_words(const ContestedShift& shift, Told told) {
  return fmt::format(
      "{} a stitch takes {}, not {}: the colours are then {}, not {}. Measure a swatch, record it with ballchange "
      "gauge, "
      "and tell the count again.",
      shift.by_scale ? "by the scale" : "by the gauge told since", stitch_amount(shift.stitch_now, told),
      stitch_amount(shift.stitch, told), shift_words(shift.now, told), shift_words(shift.as_counted, told));
}

std::string left_behind_text(const TooMuchLeft& much, Working working, Told told) {
  return fmt::format(
      "By the record ball {} still holds {} at {}, which counts as used up after the join: see that --row and --stitch "
      "are right (or is it another ball, or a knot?).",
      printable(much.ball, 40), amount(much.left, told), place_words(*much.at, working));
}

std::string knot_behind_text(const KnotBehind& behind, Working working) {
  const std::string stands = place_words(behind.stands, working);
  return fmt::format(
      "By the record the work stands at {}{}, past {}: see that --row and --stitch are right. Or was it ravelled back "
      "(ballchange rip)?",
      behind.stands.stitch ? "" : "the end of ", stands, place_words(behind.told, working));
}

std::string read_otherwise_text(const OtherEnd& end) {
  return fmt::format("Ball {}'s {} end is on record as {}. Another ball, or its other end?", printable(end.ball, 40),
                     inner_or_outer(end.end), printable(end.reading, 200));
}

std::string reaches_before_text(const BallReach& reach, Working working) {
  return fmt::format(
      "By the record ball {} reaches only about {} {}: see that --row and --stitch are right. Was a join not recorded?",
      printable(reach.ball, 40), row_word(working), reach.row);
}

std::string other_lot_text(const OtherLot& lot) {
  return fmt::format(
      "Ball {} is of dye lot {}, ball {} of {}: the shade may differ. Lay them side by side in daylight; where it "
      "shows, take another ball, or change where an edge or border hides it. Rows of each by turns would put the "
      "colours out of step.",
      printable(lot.ball, 40), printable(lot.lot, 40), printable(lot.work_ball, 40), printable(lot.work_lot, 40));
}

namespace {

// Of the strands in hand and the hook.
std::vector<std::string> minds_of_strands(const CheckShown& shown, Told told) {
  std::vector<std::string> minds;
  if (shown.project == nullptr) return minds;
  const CheckProject& record = *shown.project;
  if (record.left_behind) minds.push_back(left_behind_text(*record.left_behind, shown.fabric.working, told));
  if (record.reaches_before) {
    minds.push_back(reaches_before_text(*record.reaches_before, shown.fabric.working));
  }
  if (record.knot_behind) minds.push_back(knot_behind_text(*record.knot_behind, shown.fabric.working));
  if (record.hook_at_knot) {
    minds.push_back(
        fmt::format("The hook is taken to be at {}, as recorded last: if it is elsewhere, tell --row and "
                    "--stitch.",
                    place_words(*record.hook_at_knot, shown.fabric.working)));
  }
  if (record.other_end) {
    minds.push_back(fmt::format("Ball {}'s {} end was read as {}. A knot, or another strand in hand?",
                                printable(record.other_end->ball, 40), inner_or_outer(record.other_end->end),
                                printable(record.other_end->reading, 200)));
  }
  if (record.read_otherwise) minds.push_back(read_otherwise_text(*record.read_otherwise));
  if (record.kinked) minds.push_back(kinked_text());
  for (std::string& mind : set_apart_minds(shown, told)) minds.push_back(std::move(mind));
  return minds;
}

std::vector<std::string> misread_minds(const CheckShown& shown) {
  std::vector<std::string> minds;
  if (shown.yarn == nullptr) return minds;
  for (const Strand* strand : {&shown.old_strand, &shown.new_strand}) {
    std::string text = misread_text({*shown.yarn, strand->reading, strand->placing});
    if (!text.empty()) minds.push_back(std::move(text));
  }
  return minds;
}

std::vector<std::string> both(std::vector<std::string> first, std::vector<std::string> then) {
  std::move(then.begin(), then.end(), std::back_inserter(first));
  return first;
}

}  // namespace

std::vector<std::string> record_minds(const CheckShown& shown, Told told) {
  std::vector<std::string> minds;
  if (shown.project == nullptr) return minds;
  const CheckProject& record = *shown.project;
  if (record.cuts_out) {
    const auto& place = record.cuts_out->place;
    minds.push_back(fmt::format(
        "The old strand is joined ahead to ball {0}{1}: work on to it, or this cuts that join out, and ball {0}'s end "
        "is to be read again.",
        printable(record.cuts_out->ball, 40), place ? " at " + place_words(*place, shown.fabric.working) : ""));
  }
  for (const std::string& ball : record.came_apart) {
    minds.push_back(
        fmt::format("Ball {} came apart from here: read its end again before choosing.", printable(ball, 40)));
  }
  return both(std::move(minds), minds_of_strands(shown, told));
}

std::vector<std::string> advice_minds(const CheckShown& shown, Told told) {
  return both(misread_minds(shown), record_minds(shown, told));
}

std::vector<std::string> made_minds(const CheckShown& shown, Told told) {
  return both(misread_minds(shown), minds_of_strands(shown, told));
}

std::vector<std::string> set_apart_minds(const CheckShown& shown, Told told) {
  std::vector<std::string> minds;
  if (shown.project == nullptr || shown.yarn == nullptr) return minds;
  const CheckProject& record = *shown.project;
  if (record.longer) {
    minds.push_back(
        fmt::format("Ball {}: {}", printable(record.ball, 40),
                    longer_text(*record.longer, shown.yarn->repeat.total(), shown.fabric.yarn_per_stitch, told)));
  }
  if (record.other_lot) minds.push_back(other_lot_text(*record.other_lot));
  return minds;
}

}  // namespace ballchange
