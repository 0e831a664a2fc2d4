#include "commands/check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.hpp"
#include "commands/ask.hpp"
#include "console/join_options.hpp"
#include "console/screen.hpp"
#include "join/choice.hpp"
#include "project/advise_project.hpp"
#include "project/ahead.hpp"
#include "project/balls.hpp"
#include "project/join_lines.hpp"
#include "project/offcuts.hpp"
#include "project/record.hpp"
#include "reading/name.hpp"
#include "show/check.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 3> kRows{{
    {"yarn", "PROFILE", "the yarn: a profile's name or file"},
    {"whole", "\"plum 84\"", "or only how long a whole section of the colour is", true},
    {"either-way", "", "with --whole: the colours read the same from both ends of a ball"},
}};
constexpr OptionGroup kGroup{"The yarn, without a project", kRows};

void refuse_what_is_missing(const Options& options) {
  const auto refuse = [](const char* message) { throw Problem(Fault::content, message); };
  if (options.has("yarn") && options.has("whole")) {
    refuse("--yarn and --whole exclude each other: a profile knows how long its sections are");
  }
  if (!options.has("yarn") && !options.has("whole")) {
    refuse(
        "check needs a project (see ballchange help start), --yarn PROFILE, or how long one whole section is: "
        "--whole \"plum 84\"");
  }
  for (const char* name : {"at", "dry-run"}) {
    if (!options.has(name)) continue;
    throw Problem(Fault::content, fmt::format("--{} is for what is recorded in a project: leave it out, or name the "
                                              "project's file right after check",
                                              name));
  }
  if (options.has("ball")) refuse("--ball names a ball of a project: name the project's file right after check");
  if (!options.has("old")) refuse("check needs the finishing ball's end: --old \"rust 30, sand 11, plum\"");
  if (!options.has("new")) refuse("check needs the fresh ball's end: --new \"plum 15, sand 11, rust 30\"");
  if (options.text("old") == "-" && options.text("new") == "-") {
    refuse("only one of --old and --new can come from standard input; give the other as @FILE");
  }
}

void refuse_either_way(const Options& options) {
  if (!options.has("either-way")) return;
  throw Problem(Fault::content, "--either-way goes with --whole: where the repeat is known, it tells; leave it out");
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

Outcome check_with_yarn(const EndsAsked& asked, const Context& context, const Common& common) {
  const Options& options = asked.options;
  const Yarn yarn = yarn_of(options, context);
  const Measures measures = measures_of(options, common, &yarn);
  const MatchOptions match = match_options(options, measures);
  const JoinWish wish = join_wish(options, measures.ruler, match.tape);
  const Fabric fabric = fabric_of(options, measures.ruler);
  refuse_wide_tolerance(wish, yarn.repeat, measures.told);
  // What can't be joined so is told before anything is read or placed.
  (void)joining::terms_in_force(wish, fabric, yarn.reckoning, yarn.felts);
  const auto hook = hook_of(options, fabric.stitches);
  Palette palette{yarn.repeat.colours(), false};
  Reading old_reading = reading_option(options, End::old_end, palette, measures.ruler, context);
  Reading new_reading = reading_option(options, End::new_end, palette, measures.ruler, context);
  Strand old_strand = end_of_yarn(options, yarn, measures, End::old_end, std::move(old_reading));
  Strand new_strand = end_of_yarn(options, yarn, measures, End::new_end, std::move(new_reading));
  const Advice advice = advise(yarn, old_strand, new_strand, fabric, hook, wish);
  leave_unasked(asked.said_no, End::old_end, old_strand.placing);
  leave_unasked(asked.said_no, End::new_end, new_strand.placing);
  return tell_check({&yarn, palette.colours, old_strand, new_strand, fabric, wish, advice}, context, common,
                    measures.told);
}

Outcome check_whole(const Options& options, const Context& context, const Common& common) {
  refuse_what_needs_a_yarn(options);
  const Measures measures = measures_of(options, common, nullptr);
  const MatchOptions match = match_options(options, measures);
  JoinWish wish = join_wish(options, measures.ruler, match.tape);
  wish.either_way = options.has("either-way");
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
                                     fabric, hook_of(options, fabric.stitches), wish);
  return tell_check({nullptr, palette.colours, old_strand, new_strand, fabric, wish, advice}, context, common,
                    measures.told);
}

// The answer to "Record it?"; where nobody answers, no.
bool wants_it_recorded(const Context& context, const std::string& question) {
  while (const auto answer = context.ask(question)) {
    const std::string word = fold_case(trim(*answer));
    if (word == "y" || word == "yes") return true;
    if (word == "n" || word == "no") return false;
  }
  return false;
}

// Somebody else recorded, or edited the file, while the question stood there.
void refuse_if_changed(const OpenProject& shown, const Project& now) {
  if (shown.project.entries == now.entries && write_project(shown.project) == write_project(now)) return;
  throw Problem(Fault::file, fmt::format("{} has changed since the advice was given, so nothing was recorded; check "
                                         "again",
                                         printable(shown.path)));
}

// The join, and before it the fresh ball where none is on record: by the name `added`, with the end that was read.
std::vector<Did> entries_of(ProjectAdvice advised, const std::string& added, const OpenProject& open,
                            const Options& options, const EndTexts& texts) {
  if (!added.empty()) advised.on_record.ball = added;
  did::Join join = entry_of(advised, open.project, open.state, options, texts);
  if (added.empty()) return {std::move(join)};
  did::Ball ball;
  ball.ball = added;
  ball.outside = join.new_reading;
  return {std::move(ball), std::move(join)};
}

void tell_to_name_it(const OpenProject& open, const Context& context, const Common& common) {
  std::vector<std::string> names;
  for (const BallState* ball : fresh_balls(open.state)) names.push_back(ball->id);
  answer(context, common,
         labelled("Then", fmt::format("to record it, add --ball with the fresh ball's name: {}.", listed(names)),
                  common.screen.text_columns()));
}

void offer_to_record(const OpenProject& open, const ProjectAdvice& advised, const EndTexts& texts,
                     const Options& options, const Context& context, const Common& common) {
  if (!can_ask(context, common) || advised.on_record.too_much_left) return;
  const bool unnamed = advised.on_record.ball.empty();
  if (unnamed && !fresh_balls(open.state).empty()) return tell_to_name_it(open, context, common);
  const std::string added = unnamed ? next_name(open.state) : std::string();
  std::vector<Did> entries = entries_of(advised, added, open, options, texts);
  if (!wants_it_recorded(context, unnamed ? fmt::format("Record it, and ball {} with this reading? (y/n) ", added)
                                          : "Record it? (y/n) ")) {
    context.out << "Nothing recorded.\n";
    return;
  }
  const Recorded recorded = record(open, options, context, [&](const Project& now, const State&) {
    refuse_if_changed(open, now);
    return entries;
  });
  const std::size_t columns = common.screen.text_columns();
  const Told told = advised.terms.measures.told;
  tell_recorded(recorded, join_lines(recorded, columns) + waste_line(recorded.after.totals, told, columns), options,
                context, common);
}

Outcome check_in_project(const Options& given, const Context& context, const Common& common) {
  if (given.has("yarn") || given.has("whole")) {
    throw Problem(Fault::content, fmt::format("a project holds its own yarn: leave out {}, or the project",
                                              given.has("yarn") ? "--yarn" : "--whole"));
  }
  refuse_either_way(given);
  (void)moment_of(given, context);
  OpenProject open = open_project(given, context);
  Options options = given;
  std::vector<SaidNo> said_no;
  if (auto asked = with_ends(open, given, context, common)) {
    options = std::move(asked->options);
    said_no = std::move(asked->said_no);
    // Others may have recorded meanwhile.
    open = open_project(open.path, context.muted());
  }
  const EndTexts texts = end_texts(options, context);
  ProjectAdvice advised = advise_in(open.project, open.state, options, texts);
  leave_unasked(said_no, End::old_end, advised.old_strand.placing);
  leave_unasked(said_no, End::new_end, advised.new_strand.placing);
  advised.on_record.ahead = balls_ahead(open, advised, options, context);
  advised.on_record.bridge = bridge_in(open, advised);
  for (const std::string& note : advised.terms.notes) remark(context, note);
  const Outcome outcome = tell_check(advised.shown(), context, common, advised.terms.measures.told);
  if (outcome == Outcome::done) offer_to_record(open, advised, texts, options, context, common);
  return outcome;
}

bool means_project(const Options& options, const Context& context) {
  if (!options.words().empty()) return true;
  return !options.has("yarn") && !options.has("whole") && !project_files(context).empty();
}

}  // namespace

std::vector<OptionGroup> check_options() {
  return {kGroup,          end_options(), join_options(), work_options(), reading_options(), writing_options(),
          common_options()};
}

Outcome tell_check(const CheckShown& shown, const Context& context, const Common& common, Told told) {
  const Outcome outcome = shown.advice.verdict == JoinVerdict::cut ? Outcome::done : Outcome::settles_nothing;
  if (common.format == Format::json) {
    answer(context, common, check_json(shown));
    return outcome;
  }
  std::string text = check_screen(shown, common.screen, told, common.verbose);
  if (shown.yarn != nullptr) text += yarn_notes(*shown.yarn, common, outcome);
  answer(context, common, text);
  return outcome;
}

Outcome run_check(const Options& given, Context& context) {
  const Common common = common_of(given, context);
  if (means_project(given, context)) return check_in_project(with_project(given, context, common), context, common);
  const EndsAsked asked = with_yarn_and_ends(given, context, common);
  const Options& options = asked.options;
  refuse_what_is_missing(options);
  if (!options.has("yarn")) return check_whole(options, context, common);
  refuse_either_way(options);
  return check_with_yarn(asked, context, common);
}

}  // namespace ballchange
