#include <fmt/format.h>

#include <algorithm>

#include "picture/strands.hpp"
#include "show/check_project.hpp"
#include "show/cut.hpp"
#include "show/join_words.hpp"
#include "show/place.hpp"
#include "show/strands_terminal.hpp"
#include "show/trim_doubt.hpp"

namespace ballchange {
namespace {

bool has(const Advice& advice, Remark remark) {
  return std::find(advice.remarks.begin(), advice.remarks.end(), remark) != advice.remarks.end();
}

std::string knot_first(const CheckShown& shown, Told told) {
  if (!shown.wish.knot) return {};
  const std::optional<Length>& shift = shown.advice.knot_shift;
  if (!shift || is_nothing(*shift, told)) return "Undo the knot. ";
  return fmt::format("Undo the knot: through it the colours {} {}. ", *shift > Length() ? "skip" : "repeat",
                     amount(*shift, told));
}

void headline(Page& page, const CheckShown& shown, const Join& join) {
  const Told told = page.told();
  const bool fit = join.dry_fit.has_value();
  if (join.leave_knot) return page.say("Leave the knot: the colours run on through it. Secure its ends.");
  const std::string first = take_ball_text(shown, told) + knot_first(shown, told);
  const bool nothing = cuts_nothing(join, told);
  const std::string_view follow = has(shown.advice, Remark::ends_follow)
                                      ? "Cut nothing: the two ends follow each other."
                                      : "Nothing needs cutting off.";
  if (has(shown.advice, Remark::not_enough_room)) {
    return page.say(
        fmt::format("{}{}avel back {} first, too little yarn hangs loose. {}Then {}.", first,
                    nothing ? "R" : "Don't cut yet: r", ravel_text(shown.advice.ravel_back, shown.fabric, told),
                    nothing ? fmt::format("{} ", follow) : std::string(), fit ? "dry fit" : "mark both ends"));
  }
  if (nothing) return page.say(fmt::format("{}{}{}", first, follow, fit ? " Dry fit first." : ""));
  const std::string saved = saved_below(shown, told);
  if (!saved.empty()) {
    return page.say(
        fmt::format("{}Don't cut yet: what stands at Cheaper below would save {}. If that will not do, {} "
                    "first.",
                    first, saved, fit ? "dry fit" : "mark both ends"));
  }
  page.say(fmt::format("{}Don't cut yet: {} first.", first, fit ? "dry fit" : "mark both ends"));
}

// What may change where to cut.
void doubts_first(Page& page, const CheckShown& shown) {
  if (shown.project == nullptr) return;
  const CheckProject& record = *shown.project;
  if (record.read_otherwise) page.say("Mind", read_otherwise_text(*record.read_otherwise));
  if (record.too_much_left) {
    page.say("Mind", too_much_left_text(*record.too_much_left, page.told()) + " It may change where to cut.");
  }
}

// Whether it stands first of all.
bool is_told(const std::string& mind, const CheckShown& shown) {
  const CheckProject* record = shown.project;
  return mind == kinked_text() ||
         (record != nullptr && record->read_otherwise && mind == read_otherwise_text(*record->read_otherwise));
}

void ends_and_cut(Page& page, const CheckShown& shown, const Join& join) {
  const Told told = page.told();
  page.say("Old end", end_text(shown, join, End::old_end, told));
  page.say("New end", end_text(shown, join, End::new_end, told));
  if (join.dry_fit) page.say("Dry fit", dry_fit_text(join, told));
  std::string cut = cut_text(shown, join, told);
  if (!join.dry_fit) cut += fmt::format(" Overlap them by {}.", tape(join.allowance, told));
  page.say(cuts_nothing(join, told) ? "Join" : "Cut", cut);
  if (has(shown.advice, Remark::cut_for_edge)) page.say("Why", remark_text(Remark::cut_for_edge, shown, told));
}

void cheaper_ways(Page& page, const CheckShown& shown, const Join& join) {
  if (has(shown.advice, Remark::ends_follow) && !cuts_nothing(join, page.told())) {
    page.say("Mind", remark_text(Remark::ends_follow, shown, page.told()));
  }
  const auto& others = shown.advice.alternatives;
  for (std::size_t i = 0; i < std::min(others.size(), kAlternativesTold); ++i) {
    const Remedy remedy = cheaper_way(others[i], shown, page.told());
    page.say("Cheaper", remedy.text);
    page.typed(remedy.options);
  }
}

void as_they_are(Page& page, const CheckShown& shown) {
  if (!shown.advice.join_as_they_are) return;
  const Length skip = shown.advice.join_as_they_are->shift;
  page.say("Or", fmt::format("join as they are: nothing is cut off, but the colours skip {} once{}{}.",
                             amount(skip, page.told()), in_stitches_words(skip, shown.fabric, page.told()),
                             skip > shown.advice.tolerance ? ", and that shows" : ""));
}

// What else can be done with the knot.
void other_way_with_knot(Page& page, const CheckShown& shown, const Join& join) {
  const Told told = page.told();
  const Advice& advice = shown.advice;
  if (join.leave_knot && advice.cut_knot_out) {
    const Alternative& out = *advice.cut_knot_out;
    page.say("Or", fmt::format("cut it out and join ({}): {} lost.", method_row(out.method).name,
                               amount(out.discard + out.allowance, told, unseen_doubt(shown, out.discard))));
  }
  if (join.leave_knot || !advice.knot_shift || abs(*advice.knot_shift) > 2 * advice.tolerance) return;
  const Length shift = std::max(abs(*advice.knot_shift), abs(advice.out_of_step + *advice.knot_shift));
  const Reckoning reckoning = shown.yarn != nullptr ? shown.yarn->reckoning : Reckoning::centimetres;
  const Length doubt = habits(reckoning).join_doubt;
  page.say("Or", fmt::format("leave the knot if {} out of step will do. Check again with ({}):", tape(shift, told),
                             held_back(doubt, told)));
  page.typed("--tolerance " + typed_length(rounded_up(shift + doubt, told), told));
}

std::string yarn_cost(const CheckShown& shown, const Join& join, Told told) {
  if (join.leave_knot) return {};
  if (!join.discard) {
    return fmt::format("The join takes {}. What comes off besides was not measured.", amount(join.allowance, told));
  }
  std::string in_join = amount(join.allowance, told) + " in the join.";
  if (is_nothing(*join.discard, told)) return in_join;
  return fmt::format("{} cut off, and {}", amount(*join.discard, told, discard_doubt(shown, join)), in_join);
}

void costs(Page& page, const CheckShown& shown, const Join& join) {
  const Told told = page.told();
  std::vector<std::string> parts{yarn_cost(shown, join, told)};
  if (!join.leave_knot) parts.push_back(shift_text(join.shift, shown.fabric, told));
  parts.push_back(afterwards_text(shown, join, told));
  parts.push_back(waste_so_far_text(shown, told));
  parts.erase(std::remove(parts.begin(), parts.end(), std::string()), parts.end());
  if (!parts.empty()) page.say("Costs", fmt::format("{}", fmt::join(parts, " ")));
}

bool worth_saying(Remark remark, const CheckShown& shown, Told told, bool verbose) {
  switch (remark) {
    case Remark::ends_follow:      // stands in the headline, or before what is cheaper
    case Remark::not_enough_room:  // stands in the headline
    case Remark::cut_for_edge:     // stands below the cut
    case Remark::next_section:     // is what the new end says
    case Remark::not_seen_yet:     // the same
      return false;
    case Remark::loose_unknown:
      return verbose || (shown.fabric.yarn_per_stitch && told != Told::stitches);
    case Remark::allowance_outside_range:
    case Remark::cut_not_markable:
    case Remark::both_backward:
      break;
  }
  return true;
}

void cautions(Page& page, const CheckShown& shown, const Join& join, bool verbose) {
  for (const std::string& mind : advice_minds(shown, page.told())) {
    if (!is_told(mind, shown)) page.say("Mind", mind);
  }
  if (shown.yarn == nullptr && !shown.wish.knot) {
    page.say("Mind", "Both balls must run the same way round: the colours must follow in one order on both.");
  }
  for (const Remark remark : shown.advice.remarks) {
    if (worth_saying(remark, shown, page.told(), verbose)) page.say("Mind", remark_text(remark, shown, page.told()));
  }
  const std::string_view caution = method_row(shown.advice.method).caution;
  if (!caution.empty() && !join.leave_knot) page.say("Care", caution);
}

std::string_view no_picture(const Join& join) {
  return join.discard ? "none: the yarn up to the marks has more sections than a picture can show, or was not measured."
                      : "none: the yarn up to the mark was not measured.";
}

void other_splits(Page& page, const CheckShown& shown) {
  const std::vector<Join>& joins = shown.advice.joins;
  const Told told = page.told();
  for (std::size_t i = 1; i < joins.size(); ++i) {
    page.say(fmt::format("Split {}", i + 1),
             fmt::format("Old end {} New end {} Lands {}", end_text(shown, joins[i], End::old_end, told),
                         end_text(shown, joins[i], End::new_end, told), landing_text(joins[i], shown.fabric, told)));
  }
}

}  // namespace

void cut_screen(Page& page, const CheckShown& shown, bool verbose) {
  const Join& join = shown.advice.joins.front();
  const auto scene = strands_scene(shown.colours, shown.yarn != nullptr ? &shown.yarn->repeat : nullptr,
                                   shown.old_strand, shown.new_strand, join);
  const std::string drawn = scene ? strands_text(*scene, page.screen(), page.told()) : std::string();
  if (!drawn.empty()) page.add(drawn + "\n");
  doubts_first(page, shown);
  if (shown.project != nullptr && shown.project->kinked) page.say("First", kinked_text());
  if (shown.project != nullptr && shown.project->contested) {
    page.say("First", contested_text(*shown.project->contested, page.told()));
  }
  headline(page, shown, join);
  if (!join.leave_knot) {
    ends_and_cut(page, shown, join);
    as_they_are(page, shown);
    cheaper_ways(page, shown, join);
  }
  if (const auto offer = offcut_offer(shown, page.told())) {
    page.say("Offcut", offer->text);
    page.typed(offer->typed);
  }
  other_way_with_knot(page, shown, join);
  const std::string lands = landing_text(join, shown.fabric, page.told());
  const std::string through = join.leave_knot ? shift_text(join.shift, shown.fabric, page.told()) : std::string();
  page.say(join.leave_knot ? "Knot" : "Lands", through.empty() ? lands : lands + " " + through);
  if (shown.yarn != nullptr) page.say("Sure", percent(shown.advice.sureness) + ".");
  costs(page, shown, join);
  page.add(other_balls_lines(shown, page.screen().text_columns(), page.told()));
  if (const std::string left_out = not_ranked_text(shown, page.told()); !left_out.empty())
    page.say("Unranked", left_out);
  if (const auto ahead = ahead_told(shown, page.told())) {
    page.say("Ahead", ahead->text);
    if (!ahead->typed.empty()) page.typed(ahead->typed);
  }
  cautions(page, shown, join, verbose);
  if (!scene) page.say("Picture", no_picture(join));
  if (verbose) other_splits(page, shown);
}

}  // namespace ballchange
