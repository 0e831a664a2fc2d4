#include "commands/card.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "commands/drawn.hpp"
#include "console/join_options.hpp"
#include "join/choice.hpp"
#include "paper/card.hpp"
#include "project/advise_project.hpp"
#include "project/begun.hpp"

namespace ballchange {
namespace {

// What a card is made for; read once, as the yarn must outlive what is shown of it.
struct CardCase {
  Yarn yarn;
  Measures measures;
  JoinWish wish;
  Fabric fabric;
  std::string project;
  bool backward = false;  // the work runs along the yarn from its far end
};

CardCase from_profile(const Options& options, const Context& context, const Common& common) {
  if (!options.has("yarn")) {
    throw Problem(Fault::content, "card needs a project or a yarn: --yarn PROFILE");
  }
  Yarn yarn = yarn_of(options, context);
  const Measures measures = measures_of(options, common, &yarn);
  const JoinWish wish = join_wish(options, measures.ruler, {});
  const Fabric fabric = fabric_of(options, measures.ruler);
  return {std::move(yarn), measures, wish, fabric, {}};
}

CardCase from_project(const Options& options, const Context& context) {
  refuse_other_yarn(options);
  const OpenProject open = open_project(options, context);
  const ProjectTerms terms = terms_of(options, open.project, open.state);
  const auto begun = begun_at(open.project, open.state);
  return {open.state.yarn, terms.measures,    terms.wish,
          terms.fabric,    open.project.name, begun && begun->direction == Direction::backward};
}

CardCase case_of(const Options& options, const Context& context, const Common& common) {
  const bool project = !options.words().empty() || (!options.has("yarn") && !project_files(context).empty());
  return project ? from_project(options, context) : from_profile(options, context, common);
}

// Nothing to print, and why: the section that comes nearest.
std::string too_short(const CardShown& shown, const Habits& habit, Told told) {
  const Section* best = nullptr;
  Length over;
  for (const Section& section : shown.repeat.sections()) {
    const Length room = section.length - 2 * clear_of_changes(section, habit);
    if (best != nullptr && room <= over) continue;
    best = &section;
    over = room;
  }
  const std::string name = printable(shown.repeat.colours()[best->colour].name, 60);
  const std::string what =
      fmt::format("no section is long enough for {} in the join away from its changes", tape(shown.allowance, told));
  if (is_nothing(std::max(over, Length()), told)) return what + "; ask check at each join";
  return fmt::format(
      "{}: {}, the roomiest, takes at most {}; tell a shorter --allowance or another --method, or "
      "ask check at each join",
      what, name, tape(rounded_down(over, told), told));
}

}  // namespace

std::vector<OptionGroup> card_options() {
  static const std::array<OptionRow, 5> rows{{
      {"yarn", "PROFILE", "the yarn, where there is no project"},
      {"method", "METHOD", method_names()},
      {"allowance", "L", "yarn each join takes"},
      {"yarn-per-stitch", "L", "yarn one stitch takes, to tell stitches too"},
      {"out", "FILE.html", "the card as a page to print; otherwise its tables are told on the screen"},
  }};
  static const OptionGroup group{"The card (records nothing)", rows};
  return {group, common_options()};
}

Outcome run_card(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const CardCase made = case_of(options, context, common);
  const Yarn& yarn = made.yarn;
  const Habits habit = habits(yarn.reckoning);
  const auto terms = joining::terms_in_force(made.wish, made.fabric, yarn.reckoning, yarn.felts);
  // Tables, strips and the bar of the overlap are all laid on a tape: the overlap is what they say it is.
  const Told told = made.measures.told;
  const Length allowance = is_nothing(terms.allowance, told) ? terms.allowance : rounded(terms.allowance, told);
  // A repeat written several times over would make the same card several times.
  const Repeat written = shortest(yarn.repeat, habit.join_doubt);
  const Repeat repeat = made.backward ? written.mirrored() : written;
  const CardShown shown{yarn,
                        repeat,
                        made.backward,
                        terms.method,
                        allowance,
                        long_sections(repeat, allowance, habit),
                        made.fabric.yarn_per_stitch,
                        made.project};
  if (shown.sections.empty()) throw Problem(Fault::content, "card: " + too_short(shown, habit, told));
  Drawn drawn;
  drawn.ending = ".html";
  drawn.title = card_title(shown);
  drawn.format = "ballchange card 1";
  drawn.description = fmt::format("{} section{}.{}", shown.sections.size(), shown.sections.size() == 1 ? "" : "s",
                                  told == Told::stitches ? "" : " Print it at 100 % and measure its check line.");
  drawn.file = [&] { return card_page(shown, told); };
  drawn.text = card_screen(shown, told, common.screen.text_columns());
  drawn.members = [&](Json& json) { card_members(json, shown, told); };
  deliver(drawn, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
