#include "show/join_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kNamedColours = 4;  // more than these are counted instead

bool comes_off(const std::optional<Length>& trim, Told told) { return trim && !is_nothing(*trim, told); }

std::string way_to(const Reading& reading, const std::vector<Colour>& colours, const Mark& mark) {
  const std::string colour = printable(mark.colour);
  const std::size_t changes = *mark.changes;
  if (changes == 0) return fmt::format("in {}.", colour);
  if (changes > kNamedColours || changes > reading.entries.size()) {
    return fmt::format("past {} changes of colour into {}.", changes, colour);
  }
  std::vector<std::string> passed;
  for (std::size_t i = 0; i < changes; ++i) passed.push_back(printable(colours[reading.entries[i].colour].name));
  return fmt::format("past {} into {}.", and_list(passed), colour);
}

std::string spot_of(const Mark& mark, Length trim, Told told) {
  const std::string distance = tape(mark.distance, told);
  const std::string next = printable(mark.next_colour);
  switch (mark.from) {
    case MarkFrom::loose_end:
      return fmt::format("Mark {} from the loose end.", tape(trim, told));
    case MarkFrom::start:
      if (next.empty()) return fmt::format("Mark {} after {} begins.", distance, printable(mark.colour));
      if (mark.seen) return fmt::format("Mark {} after {} ends.", distance, next);
      return fmt::format("Look back to where {} ends; mark {} after it.", next, distance);
    case MarkFrom::end:
      break;
  }
  const bool known = !next.empty();
  if (mark.seen && known) return fmt::format("Mark {} before {} begins.", distance, next);
  if (mark.seen) return fmt::format("Mark {} before {} ends.", distance, printable(mark.colour));
  // a colour that has been passed before would show too early
  const bool passed = mark.changes && *mark.changes > kNamedColours;
  return fmt::format("Pull out until {} shows{}; mark {} before it.", known ? next : "the next colour",
                     passed ? " after it" : "", distance);
}

std::string change(const std::string& before, const std::string& after, bool begins) {
  if (!before.empty() && !after.empty()) return fmt::format("the {}-{} change", printable(before), printable(after));
  return begins ? fmt::format("where {} begins", printable(after)) : fmt::format("where {} ends", printable(before));
}

}  // namespace

std::string end_text(const Reading& reading, const std::vector<Colour>& colours, const Mark& mark,
                     const std::optional<Length>& trim, Told told) {
  if (!mark.changes) {
    return fmt::format("too little {0} is left here: go on to the next {0}, and mark {1} before its end.",
                       printable(mark.colour), tape(mark.distance, told));
  }
  if (!comes_off(trim, told)) return "leave it.";
  return way_to(reading, colours, mark) + " " + spot_of(mark, *trim, told);
}

std::string dry_fit_text(const Join& join, Told told) {
  const DryFit& fit = *join.dry_fit;
  const std::string from = change(fit.from_before, fit.from_after, true);
  const std::string to = change(fit.to_before, fit.to_after, false);
  const std::string overlap =
      fmt::format("overlap the old {} and the new {} by {}", comes_off(join.trim_old, told) ? "mark" : "end",
                  comes_off(join.trim_new, told) || !join.trim_new ? "mark" : "end", tape(join.allowance, told));
  if (is_nothing(fit.length, told)) return fmt::format("{}: {} (old) must lie on {} (new).", overlap, from, to);
  return fmt::format("{}: from {} (old) to {} (new) must be {}.", overlap, from, to, tape(fit.length, told));
}

std::string cut_text(const Join& join, std::string_view method, Told told) {
  std::vector<std::string> cuts;
  if (comes_off(join.trim_old, told)) cuts.push_back(tape(*join.trim_old, told) + " off the old end");
  if (comes_off(join.trim_new, told)) cuts.push_back(tape(*join.trim_new, told) + " off the new end");
  if (!join.trim_new) cuts.emplace_back("the new end at the mark");
  if (cuts.empty()) return fmt::format("join ({}).", method);
  return fmt::format("cut {} and join ({}).", and_list(cuts), method);
}

std::string landing_text(const Join& join, Told told) {
  const std::string colour = printable(join.colour);
  std::string out = is_nothing(join.into, told) ? fmt::format("at the start of {}", colour)
                                                : fmt::format("{} into {}", tape(join.into, told), colour);
  if (join.lands) {
    out += fmt::format(", about stitch {} of row {} (give or take {})", join.lands->stitch, join.lands->row,
                       std::max(join.give_or_take, 1));
  } else if (join.to_join) {
    out += fmt::format(", {} of yarn from the hook", amount(*join.to_join, told));
  }
  out += join.at_edge ? ", at the row's edge." : ".";
  if (join.afterwards) {
    out += fmt::format(" Afterwards {} makes about {}: count them.", colour, stitches(*join.afterwards));
  }
  return out;
}

std::string shift_text(Length shift, const Fabric& fabric, Told told) {
  if (is_nothing(shift, told)) return {};
  std::string out = fmt::format("The colours {} {}", shift > Length() ? "skip" : "repeat", tape(shift, told));
  if (fabric.yarn_per_stitch && told != Told::stitches) {
    const long count = std::lround(std::abs(shift / *fabric.yarn_per_stitch));
    if (count > 0) out += fmt::format(" (about {})", stitches(count));
  }
  return out + ".";
}

std::string alternative_text(const Alternative& other, const CheckShown& shown, Told told) {
  const Advice& advice = shown.advice;
  const Join& best = advice.joins.front();
  std::string out;
  if (other.method == advice.method) {
    out = fmt::format("{} in the join instead of {}", tape(other.allowance, told), tape(best.allowance, told));
  } else {
    out = fmt::format("{}, {} in the join", method_row(other.method).name, tape(other.allowance, told));
  }
  out += is_nothing(other.discard, told) ? ": nothing to cut off"
                                         : fmt::format(": {} to cut off", amount(other.discard, told));
  if (best.discard) {
    const Length saved = *best.discard + best.allowance - other.discard - other.allowance;
    out += fmt::format(", {} saved", amount(saved, told));
  }
  if (is_nothing(other.shift, told)) return out + ".";
  return out +
         fmt::format(", but the colours {} {}.", other.shift > Length() ? "skip" : "repeat", tape(other.shift, told));
}

}  // namespace ballchange
