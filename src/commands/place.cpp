#include "commands/place.hpp"

#include <array>

#include "commands/common.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 3> kRows{{
    {"yarn", "PROFILE", "the yarn: a profile's name or file"},
    {"old", "READING", "the finishing ball's loose end: colours and lengths, @FILE or -"},
    {"new", "READING", "the fresh ball's loose end"},
}};
constexpr OptionGroup kGroup{"What to place", kRows};

void refuse_what_is_missing(const Options& options) {
  if (!options.has("yarn")) {
    throw Problem(Fault::content, "place needs a yarn to place the reading on: --yarn PROFILE");
  }
  if (options.has("old") == options.has("new")) {
    throw Problem(Fault::content, "place needs one reading: --old \"plum 15, sand 11, rust\" or --new the same way");
  }
}

}  // namespace

std::vector<OptionGroup> place_options() { return {kGroup, reading_options(), common_options()}; }

Outcome run_place(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  refuse_what_is_missing(options);
  const Yarn yarn = yarn_of(options, context);
  const Measures measures = measures_of(options, common, &yarn);
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
