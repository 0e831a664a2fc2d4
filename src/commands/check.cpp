#include "commands/check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "commands/common.hpp"
#include "commands/join_options.hpp"
#include "join/choice.hpp"
#include "show/check.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 5> kRows{{
    {"yarn", "PROFILE", "the yarn: a profile's name or file"},
    {"whole", "\"plum 84\"", "or only how long a whole section of the colour is", true},
    {"old", "READING", "the finishing ball's loose end: colours and lengths, @FILE or -"},
    {"new", "READING", "the fresh ball's loose end"},
    {"new-from", "usual|other", "the end the fresh ball is worked from (as --from)"},
}};
constexpr OptionGroup kGroup{"The two ends", kRows};

void refuse_what_is_missing(const Options& options) {
  const auto refuse = [](const char* message) { throw Problem(Fault::content, message); };
  if (options.has("yarn") && options.has("whole")) {
    refuse("--yarn and --whole exclude each other: a profile knows how long its sections are");
  }
  if (!options.has("yarn") && !options.has("whole")) {
    refuse("check needs --yarn PROFILE, or how long one whole section is: --whole \"plum 84\"");
  }
  if (!options.has("old")) refuse("check needs the finishing ball's end: --old \"rust 30, sand 11, plum\"");
  if (!options.has("new")) refuse("check needs the fresh ball's end: --new \"plum 15, sand 11, rust 30\"");
  if (options.text("old") == "-" && options.text("new") == "-") {
    refuse("only one of --old and --new can come from standard input; give the other as @FILE");
  }
}

// What only a repeat can make use of.
void refuse_what_needs_a_yarn(const Options& options) {
  for (const char* name : {"sure", "from", "new-from", "wound", "edge"}) {
    if (options.has(name)) {
      throw Problem(Fault::content, fmt::format("--{0} needs a yarn: give --yarn PROFILE instead of --whole, or leave "
                                                "--{0} out",
                                                name));
    }
  }
}

WholeSection whole_section(const std::string& text, Palette& palette, const Ruler& ruler) {
  const Reading reading = parse_reading(text, End::new_end, palette, ruler, "--whole");
  const Entry& entry = reading.entries.front();
  const bool bars = reading.bar_at_loose_end || reading.bar_at_open_end;
  if (reading.entries.size() != 1 || bars || !entry.length || *entry.length <= Length()) {
    throw Problem(Fault::content, fmt::format("--whole: '{}' is not one colour and its length, as in \"plum 84\"; "
                                              "repeat --whole for more colours",
                                              printable(text, 40)));
  }
  return {entry.colour, *entry.length};
}

Outcome outcome_of(const Advice& advice) {
  return advice.verdict == JoinVerdict::cut ? Outcome::done : Outcome::settles_nothing;
}

Outcome tell(const CheckShown& shown, const Context& context, const Common& common, Told told) {
  const Outcome outcome = outcome_of(shown.advice);
  if (common.format == Format::json) {
    answer(context, common, check_json(shown));
    return outcome;
  }
  std::string text = check_screen(shown, common.screen, told, common.verbose);
  if (shown.yarn != nullptr) text += yarn_notes(*shown.yarn, common, outcome);
  answer(context, common, text);
  return outcome;
}

Outcome check_with_yarn(const Options& options, const Context& context, const Common& common) {
  const Yarn yarn = yarn_of(options, context);
  const Measures measures = measures_of(options, common, &yarn);
  const MatchOptions match = match_options(options, measures);
  MatchOptions match_new = match;
  match_new.worked =
      choice(options, "new-from", match.worked, {{"usual", Worked::usual_end}, {"other", Worked::other_end}});
  const JoinWish wish = join_wish(options, measures.ruler, match.tape);
  const Fabric fabric = fabric_of(options, measures.ruler);
  // What can't be joined so is told before anything is read or placed.
  (void)joining::choose(wish, fabric, yarn.reckoning, yarn.felts);
  const auto hook = hook_of(options);
  Palette palette{yarn.repeat.colours(), false};
  const Reading old_reading = reading_option(options, End::old_end, palette, measures.ruler, context);
  const Reading new_reading = reading_option(options, End::new_end, palette, measures.ruler, context);
  const Strand old_strand{old_reading, place_reading(yarn, old_reading, match)};
  const Strand new_strand{new_reading, place_reading(yarn, new_reading, match_new)};
  const Advice advice = advise(yarn, old_strand, new_strand, fabric, hook, wish);
  return tell({&yarn, palette.colours, old_strand, new_strand, fabric, wish, advice}, context, common, measures.told);
}

Outcome check_whole(const Options& options, const Context& context, const Common& common) {
  refuse_what_needs_a_yarn(options);
  const Measures measures = measures_of(options, common, nullptr);
  const MatchOptions match = match_options(options, measures);
  const JoinWish wish = join_wish(options, measures.ruler, match.tape);
  const Fabric fabric = fabric_of(options, measures.ruler);
  Palette palette{{}, true};
  std::vector<WholeSection> wholes;
  for (const std::string& text : options.texts("whole")) {
    const WholeSection whole = whole_section(text, palette, measures.ruler);
    const auto same = [&](const WholeSection& other) { return other.colour == whole.colour; };
    if (std::any_of(wholes.begin(), wholes.end(), same)) {
      throw Problem(Fault::content, fmt::format("--whole: {} is given twice: give each colour once",
                                                printable(palette.colours[whole.colour].name)));
    }
    wholes.push_back(whole);
  }
  const Strand old_strand{reading_option(options, End::old_end, palette, measures.ruler, context), {}};
  const Strand new_strand{reading_option(options, End::new_end, palette, measures.ruler, context), {}};
  const Advice advice = advise_whole(palette, wholes, old_strand.reading, new_strand.reading, Reckoning::centimetres,
                                     fabric, hook_of(options), wish);
  return tell({nullptr, palette.colours, old_strand, new_strand, fabric, wish, advice}, context, common, measures.told);
}

}  // namespace

std::vector<OptionGroup> check_options() {
  return {kGroup, join_options(), work_options(), reading_options(), common_options()};
}

Outcome run_check(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  refuse_what_is_missing(options);
  try {
    return options.has("yarn") ? check_with_yarn(options, context, common) : check_whole(options, context, common);
  } catch (const Lacking& lacking) {
    throw Problem(lacking.fault(), with_what_to_type(lacking));
  }
}

}  // namespace ballchange
