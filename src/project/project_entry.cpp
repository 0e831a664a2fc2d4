#include <fmt/core.h>

#include <algorithm>
#include <cassert>

#include "base/text.hpp"
#include "console/join_options.hpp"
#include "project/advise_project.hpp"
#include "project/balls.hpp"
#include "project/no_end.hpp"
#include "project/off_record.hpp"
#include "reading/name.hpp"
#include "show/check_project.hpp"

namespace ballchange {
namespace {

// The project's own unit; stitches only where all is counted in them, since their yarn changes with the gauge.
Unit unit_of(const Project& project, const Ruler& ruler) {
  if (ruler.in_stitches) return Unit::st;
  return project.units == Unit::st ? Unit::cm : project.units;
}

// As it was read; where its bare numbers don't mean the project's unit, written anew.
std::string text_on_record(const std::string& text, Unit bare, const Reading& reading, const ProjectAdvice& advised,
                           const Project& project) {
  const Ruler& ruler = advised.terms.measures.ruler;
  if (bare == project.units || ruler.in_stitches) return text;
  return format_reading(reading, advised.yarn.repeat.colours(), ruler_on_record(ruler, project));
}

std::string which_ball(const State& state) {
  const auto fresh = fresh_balls(state);
  if (const BallState* offcut = fresh.empty() ? fresh_offcut(state) : nullptr) {
    return only_an_offcut(*offcut, ", or add another first with ball --outside \"plum 15, sand 11, rust 30\"");
  }
  if (fresh.empty())
    return "no fresh ball is on record: add it first with ball --outside \"plum 15, sand 11, rust 30\"";
  std::vector<std::string> names;
  for (const BallState* ball : fresh) names.push_back(ball->id);
  return fmt::format("which ball is joined? Tell it with --ball: {}", listed(names));
}

// It would be recorded where it can't be.
void refuse_unknown_hook(const std::optional<TooMuchLeft>& much, Told told) {
  if (!much) return;
  std::string text = too_much_left_text(*much, told);
  text.front() = 'b';
  text.pop_back();
  refuse("can't tell where it lands: " + text);
}

void tell_readings(const ProjectAdvice& advised, const Project& project, const EndTexts& texts, did::Join& join) {
  join.old_reading =
      text_on_record(*texts.old_text, advised.terms.measures.ruler.bare, advised.old_strand.reading, advised, project);
  join.new_reading = text_on_record(advised.new_text, advised.new_bare, advised.new_strand.reading, advised, project);
}

// Where a join comes to lie whose middle is so far from the old strand's loose end: all of it hangs loose that was
// measured without meeting the hook.
std::optional<RowStitch> landing_of(const ProjectAdvice& ends, Length from_end) {
  const ProjectTerms& terms = ends.terms;
  if (!terms.hook || !terms.fabric.yarn_per_stitch) return std::nullopt;
  const Reading& reading = ends.old_strand.reading;
  const Length to_join = std::max(Length(), reading.loose.value_or(reading.measured()) - from_end);
  return landing(terms.fabric, *terms.hook, to_join);
}

void tell_lands(const std::optional<RowStitch>& place, did::Join& join) {
  join.at_least = join.at_least && place;
  if (!place) return;
  join.row = place->row;
  join.stitch = place->stitch;
}

// Where it will lie; where no hook was shown, no nearer than what was measured, or the hook as told now.
void tell_place(const ProjectAdvice& advised, const Join& advice, const Options& options, did::Join& join) {
  std::optional<RowStitch> place = advice.lands;
  join.at_least = !place;
  if (!place) place = landing_of(advised, advice.trim_old.value_or(Length()) + advice.allowance / 2);
  if (!place) place = hook_of(options, advised.terms.fabric.stitches);
  tell_lands(place, join);
}

const BallState& ball_as_cut(const State& state, const Options& options) {
  if (const auto id = options.text("ball")) return ball_named(state, *id);
  if (options.has("knot")) {
    if (!state.working) refuse("no ball is in the work yet: tell the one with the knot with --ball");
    return state.balls[*state.working];
  }
  const auto fresh = fresh_balls(state);
  if (fresh.size() != 1) refuse(which_ball(state));
  return *fresh.front();
}

void tell_shift_as_cut(const ProjectAdvice& ends, const Project& project, const Options& options, did::Join& join) {
  const Ruler& ruler = ends.terms.measures.ruler;
  const auto off = [&](std::string_view name) { return length_option(options, name, ruler).value_or(Length()); };
  const Length allowance =
      join.allowance ? to_length({join.allowance->number, join.allowance->unit}, ruler, "allowance") : Length();
  const auto shift =
      shift_left(ends.yarn, ends.old_strand, ends.new_strand, {off("trim-old"), off("trim-new"), allowance});
  if (shift) join.shift = amount_in(*shift, unit_of(project, ruler), ruler);
}

// Method and allowance of ends that were cut: as told, as the project does, or the usual ones.
void tell_method_as_cut(const ProjectTerms& terms, const Project& project, did::Join& join) {
  const Ruler& ruler = terms.measures.ruler;
  join.method = terms.wish.method.value_or(Method::threaded);
  std::optional<Length> allowance = terms.wish.allowance;
  const Reckoning reckoning = ruler.in_stitches ? Reckoning::stitches : Reckoning::centimetres;
  const auto range = allowance_range(*join.method, reckoning, terms.fabric.yarn_per_stitch);
  if (!allowance && range) allowance = range->usual;
  if (!allowance) refuse("doubled is counted in stitches: tell --allowance as a length, or the gauge first");
  join.allowance = amount_in(*allowance, unit_of(project, ruler), ruler);
}

// Where the hook is told of, by the options or the record, and how much yarn lies between it and the join.
void tell_landing_as_cut(const ProjectAdvice& ends, const Options& options, did::Join& join) {
  if (join.row || join.stitch) return;
  const Ruler& ruler = ends.terms.measures.ruler;
  const Length allowance =
      join.allowance ? to_length({join.allowance->number, join.allowance->unit}, ruler, "allowance") : Length();
  const Length off = length_option(options, "trim-old", ruler).value_or(Length());
  join.at_least = !ends.old_strand.reading.loose;
  tell_lands(landing_of(ends, off + allowance / 2), join);
}

// The fresh ball would be counted from the first row on.
void refuse_without_row(const State& state, const ProjectTerms& terms, const did::Join& join) {
  if (join.row || join.knot || !needs_row(state, terms.fabric)) return;
  refuse(
      "no row is on record, so it isn't known where in the work the ball ended: tell the last finished row with --row, "
      "like --row 110, or a finished row first with ballchange row");
}

// What the join takes of the old ball besides what is worked.
Length yarn_taken(const did::Join& join, const ProjectTerms& terms) {
  const auto length = [&](const std::optional<Amount>& told, std::string_view option) {
    return told ? to_length({told->number, told->unit}, terms.measures.ruler, option) : Length();
  };
  return length(join.trim_old, "--trim-old") + length(join.allowance, "--allowance");
}

}  // namespace

bool needs_row(const State& state, const Fabric& fabric) {
  return !state.at && fabric.yarn_per_stitch && fabric.stitches;
}

std::size_t way_to_take(const Options& options) {
  return static_cast<std::size_t>(count_option(options, "take", 1).value_or(1));
}

const Join& join_to_take(const Advice& advice, const Options& options) {
  const std::vector<Join>& joins = advice.joins;
  const std::size_t take = way_to_take(options);
  if (take > joins.size()) {
    refuse(fmt::format("--take: there {} only {} way{} to cut; check --verbose shows them",
                       joins.size() == 1 ? "is" : "are", joins.size(), joins.size() == 1 ? "" : "s"));
  }
  return joins[take - 1];
}

did::Join entry_of(const ProjectAdvice& advised, const Project& project, const State& state, const Options& options,
                   const EndTexts& texts) {
  assert(advised.advice.verdict == JoinVerdict::cut && texts.old_text);
  const Join& advice = join_to_take(advised.advice, options);
  refuse_unknown_hook(advised.on_record.too_much_left, advised.terms.measures.told);
  if (const auto& contested = advised.on_record.contested) {
    refuse("can't tell what is to be cut off. " + contested_text(*contested, advised.terms.measures.told));
  }
  if (advised.on_record.ball.empty()) refuse(which_ball(state));
  const Ruler& ruler = advised.terms.measures.ruler;
  const auto amount = [&](Length length) { return amount_in(length, unit_of(project, ruler), ruler); };
  did::Join join;
  join.ball = advised.on_record.ball;
  join.knot = options.has("knot");
  if (!advice.leave_knot) {
    join.method = advised.advice.method;
    join.allowance = amount(advice.allowance);
    join.trim_old = amount(*advice.trim_old);
    join.trim_new = amount(*advice.trim_new);
  }
  join.shift = amount(advice.shift);
  tell_place(advised, advice, options, join);
  refuse_without_row(state, advised.terms, join);
  tell_readings(advised, project, texts, join);
  return join;
}

// Long: three ways of telling the ends, on one entry.
JoinAsCut entry_as_cut(const Project& project, const State& state, const Options& options, const EndTexts& texts) {
  const BallState& ball = ball_as_cut(state, options);
  const ProjectTerms terms = terms_of(options, project, state);
  const bool cut = options.has("trim-old") || options.has("trim-new");
  JoinAsCut made;
  did::Join& join = made.entry;
  join.ball = ball.id;
  join.knot = options.has("knot");
  if (cut) {
    tell_method_as_cut(terms, project, join);
    join.trim_old = amount_option(options, "trim-old", terms.measures.ruler.bare);
    join.trim_new = amount_option(options, "trim-new", terms.measures.ruler.bare);
  }
  join.row = count_option(options, "row", 1);
  join.stitch = count_option(options, "stitch", 0);
  // Any other ball is refused for what it is.
  const bool changes_balls = !join.knot && ball.use == BallUse::fresh;
  const auto left_besides = [&](Length taken) {
    return changes_balls && !join.row ? too_much_left(state, taken) : std::nullopt;
  };
  if (texts.old_text && (texts.new_text || knows_first_end(project, state, ball))) {
    const ProjectAdvice ends = ends_in(project, state, options, texts, ball);
    const Reading& old_reading = ends.old_strand.reading;
    refuse_unknown_hook(old_reading.loose ? ends.on_record.too_much_left
                                          : left_besides(std::max(old_reading.measured(), yarn_taken(join, terms))),
                        terms.measures.told);
    tell_landing_as_cut(ends, options, join);
    tell_shift_as_cut(ends, project, options, join);
    tell_readings(ends, project, texts, join);
    made.minds = made_minds(ends.shown(), terms.measures.told);
  } else if (!texts.old_text) {
    refuse_unknown_hook(left_besides(yarn_taken(join, terms)), terms.measures.told);
  } else {
    if (!join.knot && (ball.use == BallUse::working || ball.use == BallUse::used_up)) refuse_not_fresh(ball);
    refuse(fmt::format(
        "--old tells how far out of step it is only together with the fresh end, and {}: tell it with --new "
        "\"plum 15, sand 11, rust 30\", or leave --old out",
        lacks_first_end(state, ball)));
  }
  refuse_without_row(state, terms, join);
  return made;
}

}  // namespace ballchange
