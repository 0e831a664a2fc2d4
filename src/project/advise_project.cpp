#include "project/advise_project.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

#include "base/text.hpp"
#include "console/join_options.hpp"
#include "console/ravelled.hpp"
#include "creep/follow.hpp"
#include "creep/stretch.hpp"
#include "files/source.hpp"
#include "offcut/kept.hpp"
#include "project/balls.hpp"
#include "project/begun.hpp"
#include "project/contested.hpp"
#include "project/no_end.hpp"
#include "project/off_record.hpp"
#include "project/offers.hpp"
#include "show/entry_text.hpp"
#include "show/log.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 5> kRows{{
    {"old", "READING", "the finishing ball's loose end: colours and lengths, @FILE or -"},
    {"new", "READING", "the fresh ball's loose end"},
    {"new-from", "usual|other", "the end the fresh ball is worked from (as --from)"},
    {"ball", "ID", "the fresh ball, in a project: its recorded end, where --new is not told"},
    {"ravelled", "damped|kinked", "the old end was worked once: damped and dried since, or still kinked"},
}};
constexpr OptionGroup kGroup{"The two ends", kRows};

std::optional<std::string> read_text(const Options& options, std::string_view name, const Context& context) {
  const auto argument = options.text(name);
  if (!argument) return std::nullopt;
  return reading_text(*argument, context.disk, context.in, "--" + std::string(name));
}

Strand placed(const ProjectAdvice& advised, const std::string& text, End end, const MatchOptions& match,
              std::string_view what) {
  Palette palette{advised.yarn.repeat.colours(), false};
  Reading reading = parse_reading(text, end, palette, advised.terms.measures.ruler, what);
  Placing placing = place_reading(advised.yarn, reading, match);
  return {std::move(reading), std::move(placing)};
}

const BallState* working_ball(const State& state) { return state.working ? &state.balls[*state.working] : nullptr; }

// Of the strand in the work the record may know which way it runs.
MatchOptions match_for_old(const Options& options, const ProjectAdvice& advised, const Project& project,
                           const State& state) {
  const BallState* ball = working_ball(state);
  MatchOptions match = match_for(options, advised.terms.match, ball, End::old_end);
  if (options.has("from") || ball == nullptr) return match;
  if (const auto direction = direction_on_record(project, state, *ball)) {
    match.worked = *direction == Direction::forward ? Worked::usual_end : Worked::other_end;
    match.wound = Wound::mill;
  }
  return match;
}

// The project tells of the fresh ball what sets it apart from the work.
void set_apart(ProjectAdvice& advised, const State& state) {
  CheckProject& record = advised.on_record;
  const BallState* ball = state.find_ball(record.ball);
  if (ball == nullptr) return;
  record.other_lot = other_lot(state, *ball);
  const auto longer = creeping::longer_by(advised.yarn, advised.new_strand.reading, advised.new_strand.placing,
                                          advised.terms.match.tape);
  if (longer && longer->tells()) record.longer = longer;
}

void place_old(ProjectAdvice& advised, const Project& project, const State& state, const Options& options,
               const EndTexts& texts) {
  MatchOptions match = match_for_old(options, advised, project, state);
  advised.on_record.kinked = is_kinked(options, state.ravelled > Length());
  if (advised.on_record.kinked) match.tape = kinked(match.tape);
  advised.old_strand = placed(advised, *texts.old_text, End::old_end, match, "--old");
  const BallState* ball = working_ball(state);
  if (ball == nullptr || advised.old_strand.placing.candidates.empty()) return;
  if (const auto on_record = direction_on_record(project, state, *ball)) {
    advised.on_record.old_against_record = *on_record != advised.old_strand.placing.best().direction;
  }
}

// Where the record and the strand in hand don't go together, it doesn't tell where the hook is.
void hold_against_record(ProjectAdvice& advised, const Project& project, const State& state, const Options& options) {
  CheckProject& record = advised.on_record;
  const bool knot = options.has("knot");
  const bool hook_from_record = !options.has("row") && state.at;
  if (hook_from_record && knot && advised.old_strand.reading.loose) record.hook_at_knot = state.at;
  if (hook_from_record && !knot) record.too_much_left = too_much_left(state, advised.old_strand.reading);
  if (record.too_much_left) advised.terms.hook.reset();
  if (options.has("row") && advised.terms.hook) {
    const Reading& reading = advised.old_strand.reading;
    const WorkPlace hook{advised.terms.hook->row, advised.terms.hook->stitch};
    if (knot) {
      record.knot_behind = knot_behind(state, hook, 0);
      return;
    }
    record.left_behind = left_behind(state, hook, reading.loose.value_or(reading.measured()));
    record.reaches_before = reaches_before(state, hook);
  }
  if (knot) return;
  const MatchOptions match = match_for_old(options, advised, project, state);
  record.other_end = other_end_off(project, state, advised.old_strand, match);
}

// Where an offcut begins is known without a reading.
std::optional<Strand> first_as_cut(const Project& project, const State& state, const BallState& ball) {
  if (ball.first_reading()) return std::nullopt;
  const auto offcut = offcuts::placed(state, ruler_on_record(state.ruler, project), ball);
  return offcut ? std::optional(offcuts::end_of(state.yarn.repeat, *offcut, End::new_end)) : std::nullopt;
}

void take_recorded(ProjectAdvice& advised, const Project& project, const State& state, const BallState& ball,
                   const Options& options) {
  advised.on_record.ball = ball.id;
  advised.new_bare = project.units;
  if (auto cut = first_as_cut(project, state, ball)) {
    advised.new_text =
        format_reading(cut->reading, advised.yarn.repeat.colours(), ruler_on_record(state.ruler, project));
    advised.new_strand = std::move(*cut);
    return;
  }
  advised.new_text = *ball.first_reading();
  Reading reading = reading_on_record(advised, project, ball);
  Placing placing = place_reading(advised.yarn, reading, match_for(options, advised.terms.match, &ball, End::new_end));
  advised.new_strand = {std::move(reading), std::move(placing)};
}

// The ball whose end --new tells: the one in work at a knot, the one named, the only fresh one.
const BallState* ball_of_new(const State& state, const Options& options) {
  if (const auto id = options.text("ball")) return &ball_to_join(state, *id, true);
  if (options.has("knot")) return working_ball(state);
  const auto fresh = fresh_balls(state);
  return fresh.size() == 1 ? fresh.front() : nullptr;
}

void take_read(ProjectAdvice& advised, const BallState* ball, const Options& options, const std::string& text) {
  if (ball != nullptr) advised.on_record.ball = ball->id;
  advised.new_text = text;
  advised.new_bare = advised.terms.measures.ruler.bare;
  advised.new_strand =
      placed(advised, text, End::new_end, match_for(options, advised.terms.match, ball, End::new_end), "--new");
}

void refuse_unplaced(const Project& project, const State& state, const BallState& ball) {
  if (knows_first_end(project, state, ball)) return;
  refuse(fmt::format(
      "--ball: where the ends of ball {}, an offcut, lie isn't known; tell its end with --new \"plum 15, sand 11, "
      "rust 30\"",
      printable(ball.id, 60)));
}

// Both overlaps and something to hold must be left of an offcut.
void refuse_too_short(const ProjectAdvice& advised) {
  if (!advised.advice.too_short) return;
  const Told told = advised.terms.measures.told;
  refuse(fmt::format("--ball: ball {} is an offcut of {}, too short to join here by {}; take another ball",
                     printable(advised.on_record.ball, 60), amount(advised.new_strand.reading.measured(), told),
                     amount(*advised.advice.too_short, told)));
}

void refuse_what_is_missing(const Options& options, const EndTexts& texts) {
  if (!texts.old_text) refuse("check needs the finishing ball's end: --old \"rust 30, sand 11, plum\"");
  if (options.has("knot") && !texts.new_text) {
    refuse("at a knot both sides are needed: --new \"rust 50, moss 14, navy\" is the side towards the ball");
  }
}

}  // namespace

bool knows_first_end(const Project& project, const State& state, const BallState& ball) {
  return ball.first_reading() || first_as_cut(project, state, ball);
}

const OptionGroup& end_options() { return kGroup; }

void refuse_not_fresh(const BallState& ball) {
  refuse(fmt::format("--ball: ball {} is {}; name a fresh ball", printable(ball.id, 60), use_words(ball.use)));
}

const BallState& ball_to_join(const State& state, const std::string& id, bool is_read) {
  const BallState& ball = ball_named(state, id);
  if (ball.plain) refuse(fmt::format("--ball: {} is of plain yarn; its colours never jump", printable(id, 60)));
  if (is_read) return ball;
  if (ball.use != BallUse::fresh) refuse_not_fresh(ball);
  if (!ball.first_reading() && !ball.offcut) {
    refuse(fmt::format("--ball: {}; tell it with --new \"plum 15, sand 11, rust 30\"", lacks_first_end(state, ball)));
  }
  return ball;
}

Strand end_in(const Project& project, const State& state, const Options& options, std::string_view text, End end) {
  const ProjectAdvice advised{.yarn = state.yarn, .terms = terms_of(options, project, state)};
  const bool old_end = end == End::old_end;
  MatchOptions match = old_end ? match_for_old(options, advised, project, state)
                               : match_for(options, advised.terms.match, ball_of_new(state, options), end);
  if (old_end && is_kinked(options, state.ravelled > Length())) match.tape = kinked(match.tape);
  return placed(advised, std::string(text), end, match, strand_option(end));
}

EndTexts end_texts(const Options& options, const Context& context) {
  if (options.text("old") == "-" && options.text("new") == "-") {
    refuse("only one of --old and --new can come from standard input; give the other as @FILE");
  }
  return {read_text(options, "old", context), read_text(options, "new", context)};
}

namespace {

void tell_came_apart(CheckProject& record, const State& state) {
  for (const std::string& ball : balls_come_apart(state)) {
    if (ball != record.ball) record.came_apart.push_back(ball);
  }
}

}  // namespace

ProjectAdvice advise_in(const Project& project, const State& state, const Options& options, const EndTexts& texts) {
  refuse_what_is_missing(options, texts);
  refuse_unbegun(state, options);
  ProjectAdvice advised{.yarn = state.yarn, .terms = terms_of(options, project, state)};
  refuse_wide_tolerance(advised.terms.wish, state.yarn.repeat, advised.terms.measures.told);
  advised.on_record.totals = state.totals;
  advised.on_record.worth_telling = habits(state.yarn.reckoning).worth_telling;
  const bool makes_good = advised.terms.wish.from_the_start && !options.has("out-of-step");
  if (makes_good) advised.on_record.contested = contested_shift(state);
  place_old(advised, project, state, options, texts);
  hold_against_record(advised, project, state, options);
  const bool knot = options.has("knot");
  std::vector<Offer> offers = knot ? std::vector<Offer>() : offers_of(advised, project, state, options);
  if (texts.new_text) {
    take_read(advised, ball_of_new(state, options), options, *texts.new_text);
    hold_against_its_reading(advised, offers);
  } else if (const auto id = options.text("ball")) {
    const BallState& ball = ball_to_join(state, *id, false);
    refuse_unplaced(project, state, ball);
    take_recorded(advised, project, state, ball, options);
  } else {
    if (offers.empty()) refuse(no_end_on_record(state, options));
    take_recorded(advised, project, state, *offers.front().ball, options);
    advised.on_record.chosen = true;
  }
  advised.advice = advice_for(advised, advised.new_strand);
  refuse_too_short(advised);
  const JoinState* ahead = next_join_ahead(state);
  if (!knot && ahead != nullptr && !ahead->knot) advised.on_record.cuts_out = CutsOut{ahead->new_ball, ahead->place};
  if (!knot) tell_not_ranked(advised, state, offers);
  if (!knot) set_apart(advised, state);
  if (!knot) tell_came_apart(advised.on_record, state);
  rank_others(advised, std::move(offers));
  return advised;
}

ProjectAdvice ends_in(const Project& project, const State& state, const Options& options, const EndTexts& texts,
                      const BallState& ball) {
  assert(texts.old_text && (texts.new_text || knows_first_end(project, state, ball)));
  ProjectAdvice advised{.yarn = state.yarn, .terms = terms_of(options, project, state)};
  place_old(advised, project, state, options, texts);
  hold_against_record(advised, project, state, options);
  if (texts.new_text) {
    take_read(advised, &ball, options, *texts.new_text);
  } else {
    take_recorded(advised, project, state, ball, options);
  }
  return advised;
}

}  // namespace ballchange
