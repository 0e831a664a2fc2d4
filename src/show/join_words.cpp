#include "show/join_words.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "picture/inward.hpp"
#include "show/trim_doubt.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kNamedColours = 4;  // more than these are counted, and the last two named

bool comes_off(const std::optional<Length>& trim, Told told) { return trim && !is_nothing(*trim, told); }

std::string way_to(const CheckShown& shown, const Strand& strand, const Mark& mark) {
  const std::string colour = printable(mark.colour);
  const std::size_t changes = *mark.changes;
  if (changes == 0) return fmt::format("in {}.", colour);
  const Repeat* repeat = shown.yarn != nullptr ? &shown.yarn->repeat : nullptr;
  std::vector<std::string> passed;
  for (const ColourId id : colours_inward(repeat, strand, changes)) {
    passed.push_back(printable(shown.colours[id].name));
  }
  if (changes <= kNamedColours) return fmt::format("past {} into {}.", and_list(passed), colour);
  passed.erase(passed.begin(), passed.end() - 2);
  return fmt::format("past {} changes of colour, {} the last, into {}.", changes, and_list(passed), colour);
}

std::string spot_of(const Mark& mark, Length trim, Told told) {
  if (mark.from == MarkFrom::loose_end) return fmt::format("mark {} from the loose end.", tape(trim, told));
  const std::string distance = tape(mark.distance, told);
  const std::string colour = printable(mark.colour);
  const std::string next = printable(mark.next_colour);
  const bool start = mark.from == MarkFrom::start;
  const std::string beside = next.empty() ? std::string() : fmt::format(" ({} {})", next, start ? "ends" : "begins");
  if (is_nothing(mark.distance, told)) {
    std::string spot = fmt::format("where {} {}{}", colour, start ? "begins" : "ends", beside);
    return mark.seen ? fmt::format("Mark {}.", spot) : fmt::format("Pull out to {}; mark there.", spot);
  }
  if (start) return fmt::format("Mark {} after {} begins{}.", distance, colour, beside);
  if (mark.seen) return fmt::format("Mark {} before {} ends{}.", distance, colour, beside);
  return fmt::format("Pull out to where {} ends{}; mark {} before that.", colour, beside, distance);
}

// The whole lengths alone are known, and the section to join in lies further than the new reading shows.
std::string next_section_text(const CheckShown& shown, const Join& join, Told told) {
  const Mark& mark = join.new_mark;
  const std::string colour = printable(join.colour);
  const std::string distance = tape(mark.distance, told);
  std::string why;
  for (const Remark remark : shown.advice.remarks) {
    if (remark == Remark::next_section) why = fmt::format("too little {} is left here: ", colour);
    if (remark == Remark::not_seen_yet) why = fmt::format("no {} is seen on the new end yet: ", colour);
  }
  if (mark.colour == join.colour) {
    return fmt::format("{}go on to the next {}, and mark {} before its end.", why, colour, distance);
  }
  return fmt::format("{}go on to where the next {} begins, and mark {} before that{}.", why, colour, distance,
                     mark.colour.empty() ? std::string() : fmt::format(", in {}", printable(mark.colour)));
}

std::string change(const std::string& before, const std::string& after, bool begins) {
  if (!before.empty() && !after.empty()) return fmt::format("the {}-{} change", printable(before), printable(after));
  return begins ? fmt::format("where {} begins", printable(after)) : fmt::format("where {} ends", printable(before));
}

// Where the stitches that both strands make begin; nothing where it is not known.
std::optional<RowStitch> first_of_both(const Join& join, const Fabric& fabric, int count) {
  if (!join.lands) return std::nullopt;
  const int before = join.lands->stitch - count / 2;
  if (before >= 0) return RowStitch{join.lands->row, before + 1};
  if (!fabric.stitches || join.lands->row < 2) return std::nullopt;
  return RowStitch{join.lands->row - 1, std::max(*fabric.stitches + before, 0) + 1};
}

// " Work 6 stitches with both strands, from about stitch 65 of row 118."
std::string both_strands(const CheckShown& shown, const Join& join) {
  const auto& stitch = shown.fabric.yarn_per_stitch;
  if (!method_row(shown.advice.method).in_stitches || !stitch) return {};
  const auto count = static_cast<int>(std::lround(join.allowance / *stitch));
  if (count < 1) return {};
  std::string text = fmt::format(" Work {} with both strands", stitches(count));
  if (const auto first = first_of_both(join, shown.fabric, count)) {
    text += fmt::format(", from about stitch {} of {} {}", first->stitch, row_word(shown.fabric.working), first->row);
  }
  return text + ".";
}

// How the strands meet in the overlap, where that is no matter of course.
std::string meeting(const CheckShown& shown, const Join& join, Told told) {
  if (!method_row(shown.advice.method).leaves_tails) return both_strands(shown, join);
  return fmt::format(" Change strands in the middle of the overlap: {} of each end hangs.",
                     tape(join.allowance / 2, told));
}

}  // namespace

std::string end_text(const CheckShown& shown, const Join& join, End end, Told told) {
  const bool is_old = end == End::old_end;
  const Mark& mark = is_old ? join.old_mark : join.new_mark;
  const std::optional<Length>& trim = is_old ? join.trim_old : join.trim_new;
  if (!mark.changes) return next_section_text(shown, join, told);
  if (!comes_off(trim, told)) return "leave it.";
  std::string spot = spot_of(mark, *trim, told);
  if (mark.from == MarkFrom::loose_end) return spot;
  return way_to(shown, is_old ? shown.old_strand : shown.new_strand, mark) + " " + spot;
}

std::string dry_fit_text(const Join& join, Told told) {
  const DryFit& fit = *join.dry_fit;
  const bool old_marked = comes_off(join.trim_old, told);
  const bool new_marked = comes_off(join.trim_new, told) || !join.trim_new;
  const std::string from = change(fit.from_before, fit.from_after, true);
  const std::string to = change(fit.to_before, fit.to_after, false);
  std::string out = fmt::format("overlap the old {} and the new {} by {}: ", old_marked ? "mark" : "end",
                                new_marked ? "mark" : "end", tape(join.allowance, told));
  out += is_nothing(fit.length, told)
             ? fmt::format("{} (old) must lie on {} (new).", from, to)
             : fmt::format("from {} (old) to {} (new) must be {}{}.", from, to, tape(fit.length, told),
                           from == to ? ", the new one further from the hook" : "");
  return out + fmt::format(" If not, measure both {} again before {}.", old_marked && new_marked ? "marks" : "ends",
                           old_marked || new_marked ? "cutting" : "joining");
}

std::string cut_text(const CheckShown& shown, const Join& join, Told told) {
  const std::string_view method = method_row(shown.advice.method).name;
  const std::string meet = meeting(shown, join, told);
  std::vector<std::string> cuts;
  const auto cut = [&](const std::optional<Length>& trim, End end) {
    if (!comes_off(trim, told)) return;
    const bool several = told == Told::stitches && std::lround(trim->cm()) != 1;
    cuts.push_back(fmt::format("{} {} off the {} end", amount(*trim, told, trim_doubt(shown, join, end)),
                               several ? "come" : "comes", end == End::old_end ? "old" : "new"));
  };
  cut(join.trim_old, End::old_end);
  cut(join.trim_new, End::new_end);
  if (!join.trim_new) return fmt::format("the new end at the mark and join ({}).{}", method, meet);
  if (cuts.empty()) return fmt::format("as they are ({}).{}", method, meet);
  const std::string_view where = cuts.size() == 2 ? "at both marks" : "at the mark";
  return fmt::format("{} (about {}) and join ({}).{}", where, and_list(cuts), method, meet);
}

bool cuts_nothing(const Join& join, Told told) {
  return join.trim_old && join.trim_new && is_nothing(*join.trim_old, told) && is_nothing(*join.trim_new, told);
}

std::string landing_text(const Join& join, const Fabric& fabric, Told told) {
  const std::string colour = printable(join.colour);
  const std::string_view row = row_word(fabric.working);
  std::string out = is_nothing(join.into, told) ? fmt::format("at the start of {}", colour)
                                                : fmt::format("{} into {}", tape(join.into, told), colour);
  if (join.lands) {
    out += fmt::format(", about stitch {} of {} {} (give or take {})", join.lands->stitch, row, join.lands->row,
                       std::max(join.give_or_take, 1));
  } else if (join.to_join) {
    out += fmt::format(", {} of yarn from the hook", amount(*join.to_join, told));
  }
  out += join.at_edge ? fmt::format(", at the {}'s edge.", row) : ".";
  if (join.afterwards) {
    out += fmt::format(" Afterwards {} makes about {}: count them.", colour, stitches(*join.afterwards));
  }
  return out;
}

std::string afterwards_text(const CheckShown& shown, const Join& join, Told told) {
  if (is_nothing(shown.advice.out_of_step, told)) return {};
  const Length shift = join.running_shift;
  if (is_nothing(shift, told)) return "The work is back in step.";
  std::string text = "Out of step afterwards: " + shift_words(shift, told);
  if (shown.project == nullptr) {  // a project's log knows it
    text += fmt::format(" (--out-of-step {} at the next join)", typed_length(rounded(shift, told), told));
  }
  return text + ".";
}

std::string shift_text(Length shift, const Fabric& fabric, Told told) {
  if (is_nothing(shift, told)) return {};
  return fmt::format("The colours {} {}{}.", shift > Length() ? "skip" : "repeat", tape(shift, told),
                     in_stitches_words(shift, fabric, told));
}

std::string in_stitches_words(Length shift, const Fabric& fabric, Told told) {
  if (!fabric.yarn_per_stitch || told == Told::stitches) return {};
  const long count = std::lround(std::abs(shift / *fabric.yarn_per_stitch));
  return count > 0 ? fmt::format(" (about {})", stitches(count)) : std::string();
}

std::string ravel_text(Length yarn, const Fabric& fabric, Told told) {
  if (!fabric.yarn_per_stitch || told == Told::stitches) return tape(rounded_up(yarn, told), told);
  const auto count = static_cast<long>(std::ceil(yarn / *fabric.yarn_per_stitch - 1e-9));
  return fmt::format("{} ({})", stitches(std::max(count, 1L)), tape(rounded_up(yarn, told), told));
}

}  // namespace ballchange
