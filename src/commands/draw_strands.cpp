#include "commands/ask.hpp"
#include "commands/ball_change.hpp"
#include "commands/drawn.hpp"
#include "commands/pictures.hpp"
#include "console/join_options.hpp"
#include "paper/strands.hpp"
#include "show/join_words.hpp"
#include "show/page.hpp"
#include "show/profile_notes.hpp"
#include "show/strands_terminal.hpp"

namespace ballchange {
namespace {

std::string screen_of(const StrandsScene& scene, const CheckShown& shown, const Join& join, const Common& common,
                      Told told) {
  Page page(common.screen, told);
  page.add(strands_text(scene, common.screen, told));
  page.say("Old end", join.leave_knot ? "leave the knot." : end_text(shown, join, End::old_end, told));
  const std::string shift = shift_text(join.shift, shown.fabric, told);
  if (!join.leave_knot) {
    page.say("New end", end_text(shown, join, End::new_end, told));
    if (join.dry_fit) page.say("Dry fit", dry_fit_text(join, told));
  }
  if (!shift.empty()) page.say("Mind", shift);
  return page.take();
}

void scene_members(Json& json, const StrandsScene& scene, const Join& join, const Fabric& fabric) {
  json.member("trim_old", join.trim_old).member("trim_new", join.trim_new).member("allowance", join.allowance);
  const auto& stitch = fabric.yarn_per_stitch;
  json.member("shift", join.shift)
      .member("shift_stitches", stitch ? std::optional(join.shift / *stitch) : std::nullopt);
  json.member("cut_old", scene.old_strand.cut).member("cut_new", scene.new_strand.cut);
  json.member("doubt_old", scene.old_strand.cut_doubt).member("doubt_new", scene.new_strand.cut_doubt);
  json.member("dry_fit", scene.fit ? std::optional(scene.fit->to - scene.fit->from) : std::nullopt);
}

Outcome draw_change(const CheckShown& shown, Told told, const Options& options, Context& context,
                    const Common& common) {
  if (shown.advice.verdict != JoinVerdict::cut) {
    return no_picture("strands", shown, check_screen(shown, common.screen, told, common.verbose), options, context,
                      common);
  }
  const Join& join = join_to_take(shown.advice, options);
  const double ball = shown.yarn != nullptr ? shown.yarn->ball_plus_minus : 0;
  const auto scene = strands_scene(shown.colours, shown.yarn != nullptr ? &shown.yarn->repeat : nullptr,
                                   shown.old_strand, shown.new_strand, join, {shown.wish.tape, ball});
  if (!scene) {
    return no_picture("strands", shown,
                      wrapped("No picture: the yarn up to the marks was not measured, or has more sections than a "
                              "picture can show. What check says holds all the same.",
                              common.screen.text_columns()),
                      options, context, common);
  }
  const StrandsOnPaper words = strands_words(shown, join, *scene, told);
  Drawn drawn{"strands", ".svg", words.title, words.description, {}, {}, {}, {}};
  drawn.file = [&] {
    Drawing drawing("strands", words.title, words.description);
    const Sheet sheet = draw_strands(drawing, *scene, words, 2, 2, kMostPaper);
    return drawing.file({sheet.width + 4, sheet.height + 4});
  };
  drawn.unshaded = unshaded_note(shown.colours);
  drawn.text = screen_of(*scene, shown, join, common, told);
  drawn.members = [&](Json& json) {
    json.member("verdict", verdict_name(shown.advice.verdict));
    scene_members(json, *scene, join, shown.fabric);
  };
  deliver(drawn, options, context, common);
  return Outcome::done;
}

}  // namespace

std::vector<OptionGroup> strands_picture_options() {
  return {without_project_options(), end_options(), join_options(), work_options(), reading_options(), way_options()};
}

Outcome run_draw_strands(const Options& given, Context& context, const Common& common) {
  if (means_project(given, context)) {
    const ChangeInProject change = change_in_project(with_project(given, context, common), context, common);
    return draw_change(change.advised.shown(), change.advised.terms.measures.told, change.options, context, common);
  }
  const YarnAdvice advised = change_on_yarn(given, context, common, "draw strands");
  return draw_change(advised.shown(), advised.measures.told, given, context, common);
}

}  // namespace ballchange
