#include "project/stock.hpp"

#include <algorithm>
#include <cmath>

#include "join/choice.hpp"
#include "project/advise_project.hpp"
#include "project/balls.hpp"
#include "project/creep.hpp"
#include "project/two_ends.hpp"

namespace ballchange {
namespace {

// How joins are made; nothing where the project tells of one that can't be.
struct InForce {
  ProjectTerms terms;
  joining::Terms joining;
};
std::optional<InForce> in_force(const Project& project, const State& state, const Options& options) {
  ProjectTerms terms = terms_of(options, project, state);
  try {
    joining::Terms joining = joining::terms_in_force(terms.wish, terms.fabric, state.yarn.reckoning, state.yarn.felts);
    return InForce{std::move(terms), std::move(joining)};
  } catch (const Lacking&) {
    return std::nullopt;
  }
}

stock::Joining joining_of(const InForce& force, const Repeat& repeat) {
  return {shortest_period(repeat), force.joining.allowance, force.joining.tolerance, force.terms.wish.sparing,
          force.terms.wish.from_the_start};
}

std::optional<Colouring> colouring_of(const State& state, Length period) {
  if (state.yarn.reckoning == Reckoning::stitches || !state.fabric.yarn_per_stitch || !state.fabric.stitches) {
    return std::nullopt;
  }
  const Repeat& repeat = state.yarn.repeat;
  return Colouring{period, repeat.total() / static_cast<double>(repeat.size()), *state.fabric.yarn_per_stitch,
                   state.fabric.yarn_per_turn, state.fabric.working};
}

// Those yet to be begun.
std::optional<int> rows_to_come(const Project& project, const State& state) {
  if (!project.piece.rows) return std::nullopt;
  return std::max(0, *project.piece.rows - (state.at ? state.at->row : 0));
}

// By the gauge told last, which is the better measured; with other hooks or needles by the gauges they were worked in.
// Out of step as the joins left them.
RowsWorked rows_worked(const State& state) {
  const auto foundation = state.gauge.used({1, 0});
  const auto row = state.gauge.row();
  if (!state.at || !foundation || !row) return {};
  const WorkPlace end{state.at->row, state.fabric.stitches};
  const Length worked = state.took_other_size() ? *state.gauge.used(end) - *foundation : state.at->row * *row;
  return {state.at->row, worked + state.totals.running_shift.value_or(Length())};
}

// What a row takes is plainly not what the gauge says: by the scale, or as colours were seen to creep.
bool row_is_open(const StockShown& shown, const std::string& path) {
  if (shown.stock.odd || std::abs(shown.stock.takes.share - 1) > shown.stock.doubts.label) return true;
  const CreepShown creep = creep_of(shown.project, shown.state, path);
  return creep.creep && (creep.creep->doubtful() || creep.creep->plain());
}

void tell_enough(StockShown& shown, const InForce& force, const std::string& path) {
  if (shown.stock.odd && stock::left_is_unknown(shown.stock, *shown.stock.odd)) return;
  const stock::Joining joining = joining_of(force, shown.state.yarn.repeat);
  try {
    shown.outlook = stock::outlook(shown.state, shown.stock, joining, rows_to_come(shown.project, shown.state));
  } catch (const Problem&) {
    return;  // more balls than anybody buys
  }
  const auto colouring = colouring_of(shown.state, joining.period);
  if (!shown.outlook || !colouring) return;
  const auto planned = shown.project.piece.rows;
  const bool closes = joining.keep_from_start && planned;
  if (row_is_open(shown, path)) {
    // Where the colours will fall, diamonds too, hangs on what a row takes.
    shown.ring_open = closes;
    return;
  }
  const int stitches = *shown.state.fabric.stitches;
  if (shown.outlook->leave_out) {
    shown.diamonds = stock::whole_diamonds(*colouring, stitches, *shown.outlook->leave_out);
  }
  if (!closes) return;
  const stock::Rings rings =
      stock::rings_near(*colouring, stitches, *planned, joining.tolerance, rows_worked(shown.state));
  if (!rings.below || rings.below->rows != *planned) shown.rings = rings;
}

// One end of a ball on the repeat, or why that isn't known.
struct EndRead {
  std::optional<stock::End> end;
  UnknownEnd unknown;
  std::optional<creeping::Longer> longer = {};
};
EndRead end_of(const BallState& ball, bool first, const ProjectTerms& terms, const Options& options,
               const Project& project, const State& state, const Context& context) {
  const Yarn& yarn = state.yarn;
  Measures written = terms.measures;
  written.ruler = ruler_on_record(written.ruler, project);
  TwoEnds ends = recorded_ends(ball, options, yarn, written, context);
  (first ? ends.finish : ends.start).reset();
  const BallEnd other = ball.from == BallEnd::outside ? BallEnd::inside : BallEnd::outside;
  EndRead read{std::nullopt, {ball.id, first ? ball.from : other, {}}};
  if (!(first ? ends.start : ends.finish)) {
    const auto cut = first ? std::nullopt : finish_as_cut(state, written.ruler, ball);
    if (cut) read.end = stock::End{*cut->finish, cut->direction == Direction::backward};
    return read;
  }
  std::vector<OpenEnd> open;
  const PlacedBall placed = placed_ball(ends, yarn, written, terms.match, open);
  if (!open.empty()) {
    read.unknown.why = open.front().ask;
  } else {
    read.longer = placed.longer;
    read.end = stock::End{*(first ? placed.start : placed.finish), placed.direction == Direction::backward};
  }
  return read;
}

// Yarn that reads alike from both ends may be started from the other one too, where that was read.
std::optional<stock::End> other_start(const BallState& ball, const ProjectTerms& terms, const Options& options,
                                      const StockShown& shown, const Context& context) {
  const auto axis = mirror_axis(shown.state.yarn.repeat);
  if (!axis) return std::nullopt;
  const EndRead read = end_of(ball, false, terms, options, shown.project, shown.state, context.muted());
  if (!read.end) return std::nullopt;
  return stock::End{wrap(*axis - read.end->place, shown.state.yarn.repeat.total()), read.end->backward};
}

StopsShown stops_of(const StockShown& shown, const InForce& force, const Options& options, const Context& context) {
  StopsShown stops;
  stops.method = force.joining.method;
  stops.allowance = force.joining.allowance;
  std::vector<stock::FreshEnd> fresh;
  for (const BallState* ball : fresh_balls(shown.state)) {
    ++stops.fresh_balls;
    EndRead read = end_of(*ball, true, force.terms, options, shown.project, shown.state, context);
    if (read.longer) stops.longer.push_back({ball->id, *read.longer});
    if (read.end) {
      fresh.push_back({ball->id, *read.end});
    } else {
      stops.fresh.push_back(std::move(read.unknown));
    }
    if (const auto other = other_start(*ball, force.terms, options, shown, context)) {
      fresh.push_back({ball->id, *other, true});
    }
  }
  const BallState& working = shown.state.balls[*shown.state.working];
  EndRead old_end = end_of(working, false, force.terms, options, shown.project, shown.state, context);
  if (!old_end.end) {
    stops.old_end = std::move(old_end.unknown);
    return stops;
  }
  const Habits habit = habits(shown.state.yarn.reckoning);
  stops.known = stock::stops(*old_end.end, fresh, joining_of(force, shown.state.yarn.repeat), habit.join_doubt,
                             force.terms.wish.out_of_step, habit.worth_telling);
  return stops;
}

}  // namespace

StockShown enough_of(const Project& project, const State& state, const stock::Stock& stock, const std::string& path,
                     const Options& options) {
  StockShown shown{project, state, stock, path};
  if (const auto force = in_force(project, state, options)) tell_enough(shown, *force, path);
  return shown;
}

std::optional<double> chance_of_enough(const Project& project, const State& state, const stock::Stock& stock) {
  if (!project.piece.rows) return std::nullopt;
  const auto force = in_force(project, state, Options());
  if (!force || (stock.odd && stock::left_is_unknown(stock, *stock.odd))) return std::nullopt;
  try {
    return stock::chance_of_enough(state, stock, joining_of(*force, state.yarn.repeat));
  } catch (const Problem&) {
    return std::nullopt;  // more balls than anybody buys
  }
}

StockShown stock_of_ball(const Project& project, const State& state, const stock::Stock& stock, const std::string& path,
                         const Options& options, const Context& context) {
  StockShown shown{project, state, stock, path};
  const auto force = in_force(project, state, options);
  if (force) tell_enough(shown, *force, path);
  if (!state.working || state.balls[*state.working].plain) return shown;
  if (stock::left_is_unknown(stock, *state.working)) return shown;
  shown.ending = stock::ending(state, stock);
  if (!force) return shown;
  const Length room = force->terms.wish.room.value_or(habits(state.yarn.reckoning).room);
  shown.lay_out_length = stock::to_lay_out(state.yarn.repeat, force->joining.allowance, room);
  if (shown.ending) shown.lay_out = stock::lay_out(state, stock, *shown.ending, shown.lay_out_length);
  shown.room = room;
  if (shown.ending) shown.stop_by = stock::stop_by(state, stock, *shown.ending, force->joining.allowance + room);
  shown.stops = stops_of(shown, *force, options, context);
  return shown;
}

}  // namespace ballchange
