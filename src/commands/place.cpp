#include "commands/place.hpp"

#include <fmt/core.h>

#include <array>

#include "project/advise_project.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 3> kRows{{
    {"yarn", "PROFILE", "the yarn, without a project: a profile's name or file"},
    {"old", "READING", "the finishing ball's loose end: colours and lengths, @FILE or -"},
    {"new", "READING", "the fresh ball's loose end"},
}};
constexpr OptionGroup kGroup{"What to place", kRows};

}  // namespace

const OptionGroup& placing_group() { return kGroup; }

Placeable what_to_place_on(const Options& options, const Context& context, const Common& common,
                           std::string_view needs) {
  const bool named = !options.words().empty();
  if (named) refuse_other_yarn(options);
  if (options.has("yarn")) {
    const Yarn yarn = yarn_of(options, context);
    return {yarn, measures_of(options, common, &yarn)};
  }
  if (!named && project_files(context).empty()) {
    throw Problem(Fault::content, fmt::format("{}: --yarn PROFILE", needs));
  }
  const OpenProject open = open_project(options, context);
  return {open.state.yarn, project_measures(options, open.project, open.state)};
}

std::vector<OptionGroup> place_options() { return {kGroup, reading_options(), common_options()}; }

Outcome run_place(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  if (options.has("old") == options.has("new")) {
    throw Problem(Fault::content, "place needs one reading: --old \"plum 15, sand 11, rust\" or --new the same way");
  }
  const auto [yarn, measures] =
      what_to_place_on(options, context, common, "place needs a project or a yarn to place the reading on");
  const MatchOptions match = match_options(options, measures);
  Palette palette{yarn.repeat.colours(), false};
  const End end = options.has("old") ? End::old_end : End::new_end;
  const Reading reading = reading_option(options, end, palette, measures.ruler, context);
  const Placing placing = place_reading(yarn, reading, match);
  const PlaceShown shown{yarn, reading, placing};
  const Outcome outcome = placing.verdict == Verdict::settled ? Outcome::done : Outcome::settles_nothing;
  if (common.format == Format::json) {
    Json json;
    place_json(json, shown);
    answer(context, common, json.take());
  } else {
    answer(context, common,
           place_screen(shown, common.screen, measures.told, common.verbose) + yarn_notes(yarn, common, outcome));
  }
  return outcome;
}

}  // namespace ballchange
