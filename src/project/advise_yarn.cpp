#include "project/advise_yarn.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "base/text.hpp"
#include "console/join_options.hpp"
#include "join/choice.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 3> kRows{{
    {"yarn", "PROFILE", "the yarn: a profile's name or file"},
    {"whole", "\"plum 84\"", "or only how long a whole section of the colour is", true},
    {"either-way", "", "with --whole: the colours read the same from both ends of a ball"},
}};
constexpr OptionGroup kGroup{"The yarn, without a project", kRows};

void refuse_what_is_missing(const Options& options, std::string_view command) {
  if (options.has("yarn") && options.has("whole")) {
    refuse("--yarn and --whole exclude each other: a profile knows how long its sections are");
  }
  if (!options.has("yarn") && !options.has("whole")) {
    refuse(
        fmt::format("{} needs a project (see ballchange help start), --yarn PROFILE, or how long one whole section is: "
                    "--whole \"plum 84\"",
                    command));
  }
  for (const char* name : {"at", "dry-run"}) {
    if (!options.has(name)) continue;
    throw Problem(Fault::content, fmt::format("--{} is for what is recorded in a project: leave it out, or name the "
                                              "project's file right after {}",
                                              name, command));
  }
  if (options.has("ball"))
    refuse(fmt::format("--ball names a ball of a project: name the project's file right after {}", command));
  if (!options.has("old"))
    refuse(fmt::format("{} needs the finishing ball's end: --old \"rust 30, sand 11, plum\"", command));
  if (!options.has("new"))
    refuse(fmt::format("{} needs the fresh ball's end: --new \"plum 15, sand 11, rust 30\"", command));
  if (options.text("old") == "-" && options.text("new") == "-") {
    refuse("only one of --old and --new can come from standard input; give the other as @FILE");
  }
}

// What only a repeat can make use of.
void refuse_what_needs_a_yarn(const Options& options) {
  for (const char* name : {"sure", "from", "new-from", "wound", "edge", "ravelled"}) {
    if (options.has(name)) {
      throw Problem(Fault::content, fmt::format("--{0} needs a yarn: give --yarn PROFILE instead of --whole, or leave "
                                                "--{0} out",
                                                name));
    }
  }
}

WholeSection whole_section(const std::string& text, Palette& palette, const Ruler& ruler) {
  refuse_no_section(text);
  const Reading reading = parse_reading(text, End::new_end, palette, ruler, "--whole");
  const Entry& entry = reading.entries.front();
  const bool bars = reading.bar_at_loose_end || reading.bar_at_open_end;
  if (reading.entries.size() != 1 || bars || !entry.length || *entry.length <= Length()) {
    throw Problem(Fault::content, fmt::format("--whole: '{}' is not one colour and its length, as in \"plum 84\"; "
                                              "repeat --whole for more colours",
                                              printable(text, 40)));
  }
  refuse_short_section(text, *entry.length);
  return {entry.colour, *entry.length};
}

YarnAdvice advise_with_yarn(const Options& options, const Context& context, const Common& common) {
  const Yarn yarn = yarn_of(options, context);
  YarnAdvice advised{yarn, measures_of(options, common, &yarn)};
  const Measures& measures = advised.measures;
  const MatchOptions match = match_options(options, measures);
  advised.wish = join_wish(options, measures.ruler, match.tape);
  advised.fabric = fabric_of(options, measures.ruler);
  refuse_wide_tolerance(advised.wish, yarn.repeat, measures.told);
  // What can't be joined so is told before anything is read or placed.
  (void)joining::terms_in_force(advised.wish, advised.fabric, yarn.reckoning, yarn.felts);
  const auto hook = hook_of(options, advised.fabric.stitches);
  Palette palette{yarn.repeat.colours(), false};
  Reading old_reading = reading_option(options, End::old_end, palette, measures.ruler, context);
  Reading new_reading = reading_option(options, End::new_end, palette, measures.ruler, context);
  advised.colours = palette.colours;
  advised.old_strand = end_of_yarn(options, yarn, measures, End::old_end, std::move(old_reading));
  advised.new_strand = end_of_yarn(options, yarn, measures, End::new_end, std::move(new_reading));
  advised.advice = advise(yarn, advised.old_strand, advised.new_strand, advised.fabric, hook, advised.wish);
  return advised;
}

YarnAdvice advise_by_wholes(const Options& options, const Context& context, const Common& common) {
  refuse_what_needs_a_yarn(options);
  YarnAdvice advised{std::nullopt, measures_of(options, common, nullptr)};
  const Measures& measures = advised.measures;
  const MatchOptions match = match_options(options, measures);
  advised.wish = join_wish(options, measures.ruler, match.tape);
  advised.wish.either_way = options.has("either-way");
  advised.fabric = fabric_of(options, measures.ruler);
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
  advised.old_strand = {reading_option(options, End::old_end, palette, measures.ruler, context), {}};
  advised.new_strand = {reading_option(options, End::new_end, palette, measures.ruler, context), {}};
  advised.advice =
      advise_whole(palette, wholes, advised.old_strand.reading, advised.new_strand.reading, Reckoning::centimetres,
                   advised.fabric, hook_of(options, advised.fabric.stitches), advised.wish);
  advised.colours = palette.colours;
  return advised;
}

}  // namespace

const OptionGroup& without_project_options() { return kGroup; }

void refuse_either_way(const Options& options) {
  if (!options.has("either-way")) return;
  throw Problem(Fault::content, "--either-way goes with --whole: where the repeat is known, it tells; leave it out");
}

YarnAdvice advise_without_project(const Options& options, const Context& context, const Common& common,
                                  std::string_view command) {
  refuse_what_is_missing(options, command);
  if (!options.has("yarn")) return advise_by_wholes(options, context, common);
  refuse_either_way(options);
  return advise_with_yarn(options, context, common);
}

}  // namespace ballchange
