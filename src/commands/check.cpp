#include "commands/check.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.hpp"
#include "commands/ask.hpp"
#include "commands/ball_change.hpp"
#include "console/join_options.hpp"
#include "console/screen.hpp"
#include "project/advise_yarn.hpp"
#include "project/balls.hpp"
#include "project/join_lines.hpp"
#include "project/record.hpp"
#include "reading/name.hpp"
#include "show/check.hpp"
#include "show/check_project.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

// The answer to "Record it?"; where nobody answers, no.
bool wants_it_recorded(const Context& context, const std::string& question) {
  while (const auto answer = context.ask(question)) {
    const std::string word = fold_case(trim(*answer));
    if (word == "y" || word == "yes") return true;
    if (word == "n" || word == "no") return false;
  }
  return false;
}

// The join, and before it the fresh ball where none is on record: by the name `added`, with the end that was read.
std::vector<Did> entries_of(ProjectAdvice advised, const std::string& added, const Project& project, const State& state,
                            const Options& options, const EndTexts& texts) {
  if (!added.empty()) advised.on_record.ball = added;
  did::Join join = entry_of(advised, project, state, options, texts);
  if (added.empty()) return {std::move(join)};
  did::Ball ball;
  ball.ball = added;
  ball.outside = join.new_reading;
  return {std::move(ball), std::move(join)};
}

// Ravelled or worked on, or another hook taken up.
bool work_changed(const State& before, const State& now) {
  return before.at != now.at || before.size != now.size || before.gauge.row() != now.gauge.row();
}

// Whether the same advice would be given now: somebody else may have recorded, or edited the file, while the question
// stood there.
bool still_holds(const std::vector<Did>& entries, const std::string& added, const State& before, const Project& project,
                 const State& state, const Options& options, const EndTexts& texts) {
  if (work_changed(before, state)) return false;
  try {
    if (!added.empty() && next_name(state) != added) return false;
    const ProjectAdvice advised = advise_in(project, state, options, texts);
    return advised.advice.verdict == JoinVerdict::cut && !advised.on_record.too_much_left &&
           entries_of(advised, added, project, state, options, texts) == entries;
  } catch (const Problem&) {
    return false;
  }
}

// How it can be recorded after all.
void tell_then(const std::string& text, const Context& context, const Common& common) {
  answer(context, common, labelled("Then", text, common.screen.text_columns()));
}

std::string how_to_name_it(const OpenProject& open) {
  std::vector<std::string> names;
  for (const BallState* ball : fresh_balls(open.state)) names.push_back(ball->id);
  return fmt::format("to record it, add --ball with the fresh ball's name: {}.", listed(names));
}

// The cut that was told is that of the ball that costs least now, and another is better: nothing is recorded by a mere
// y.
std::string how_to_choose(const BallAhead& better, const std::string& ball) {
  if (better.unread || better.other_end) {
    return fmt::format("to record it all the same, add --ball {}.", typed_path(ball));
  }
  return fmt::format("to record it, say which ball you take: --ball {}, or --ball {} all the same.",
                     typed_path(better.ball), typed_path(ball));
}

void offer_to_record(const OpenProject& open, const ProjectAdvice& advised, const EndTexts& texts,
                     const Options& options, const Context& context, const Common& common) {
  if (!can_ask(context, common) || advised.on_record.too_much_left) return;
  if (advised.on_record.contested) {
    return tell_then("nothing is recorded before that is told.", context, common);
  }
  if (const BallAhead* better = better_ball(advised.on_record)) {
    return tell_then(how_to_choose(*better, advised.on_record.ball), context, common);
  }
  if (needs_row(open.state, advised.terms.fabric) && !advised.terms.hook) {
    return tell_then("to record it, add the last finished row, like --row 110.", context, common);
  }
  const bool unnamed = advised.on_record.ball.empty();
  if (unnamed && !fresh_balls(open.state).empty()) {
    return tell_then(how_to_name_it(open), context, common);
  }
  const std::string added = unnamed ? next_name(open.state) : std::string();
  std::vector<Did> entries = entries_of(advised, added, open.project, open.state, options, texts);
  if (!wants_it_recorded(context, unnamed ? fmt::format("Record it, and ball {} with this reading? (y/n) ", added)
                                          : "Record it? (y/n) ")) {
    context.out << "Nothing recorded.\n";
    return;
  }
  const Recorded recorded = record(open, options, context, [&](const Project& now, const State& state) {
    if (still_holds(entries, added, open.state, now, state, options, texts)) return entries;
    throw Problem(Fault::file, fmt::format("{} has changed since the advice was given, so nothing was recorded; check "
                                           "again",
                                           printable(open.path)));
  });
  const std::size_t columns = common.screen.text_columns();
  const Told told = advised.terms.measures.told;
  tell_recorded(recorded, join_lines(recorded, columns) + waste_line(recorded.after.totals, told, columns), options,
                context, common);
}

Outcome check_in_project(const Options& given, const Context& context, const Common& common) {
  (void)moment_of(given, context);
  const ChangeInProject change = change_in_project(given, context, common);
  const Outcome outcome = tell_check(change.advised.shown(), context, common, change.advised.terms.measures.told);
  if (outcome == Outcome::done) {
    offer_to_record(change.open, change.advised, change.texts, change.options, context, common);
  }
  return outcome;
}

}  // namespace

std::vector<OptionGroup> check_options() {
  return {without_project_options(), end_options(),     join_options(),  work_options(),
          reading_options(),         writing_options(), common_options()};
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
  const YarnAdvice advised = change_on_yarn(given, context, common, "check");
  return tell_check(advised.shown(), context, common, advised.measures.told);
}

}  // namespace ballchange
