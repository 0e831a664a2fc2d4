#include "ledger/totals.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <unordered_set>

namespace ballchange {
namespace {

// Of a second, plain yarn nothing is waste.
bool is_plain(const State& state, std::optional<std::size_t> ball) { return ball && state.balls[*ball].plain; }

// What was made of an offcut is no waste; what is trimmed off it again is.
void take_back(const OffcutState& offcut, const State& state, Totals& totals) {
  if (is_plain(state, offcut.ball)) return;
  auto& by = totals.by_cause;
  const bool at_begin = state.begun && state.begun->entry == offcut.entry;
  (offcut.knot ? by.knots : at_begin ? by.begin : by.step) -= offcut.used;
  totals.discard -= offcut.used;
  if (offcut.use == OffcutUse::used_up) totals.offcuts_used += offcut.used;
}

Totals waste_of(const State& state, const Aside& aside) {
  std::unordered_set<std::string_view> plain;
  for (const BallState& ball : state.balls) {
    if (ball.plain) plain.insert(ball.id);
  }
  // Of two yarns in a join each gives half.
  const auto of_yarn = [&](const std::string& ball) { return plain.count(ball) > 0 ? 0.0 : 1.0; };
  Totals totals;
  if (!state.begun || !is_plain(state, state.begun->ball)) totals.discard = aside.first_trim;
  totals.by_cause.begin = totals.discard;
  totals.by_cause.swatches = aside.swatches;
  for (const JoinState& join : state.joins) {
    const double of_old = of_yarn(join.old_ball), of_new = of_yarn(join.new_ball);
    const Length discard = of_old * join.trim_old + of_new * join.trim_new;
    // What a join took is back on the strands once its ends have come apart.
    const Length taken = join.held == JoinHeld::apart ? Length() : join.allowance.value_or(Length());
    const Length allowance = (of_old + of_new) / 2 * taken;
    if (join.held == JoinHeld::in_work || join.held == JoinHeld::ahead) {
      ++(join.knot_left ? totals.knots_left : totals.joins);
    }
    totals.discard += discard;
    totals.allowance += allowance;
    if (join.knot) {
      totals.by_cause.knots += discard + allowance;
    } else {
      totals.by_cause.step += discard;
      totals.by_cause.allowance += allowance;
    }
  }
  for (const OffcutState& offcut : state.offcuts) take_back(offcut, state, totals);
  totals.waste = totals.discard + totals.allowance + aside.swatches;
  return totals;
}

enum class Offcuts { counted, left_out };

// Balls of a second, plain yarn don't count.
std::optional<Length> sum_of(const std::vector<BallState>& balls, std::optional<Length> BallState::*length,
                             Offcuts offcuts) {
  Length sum;
  for (const BallState& ball : balls) {
    if (ball.plain || (ball.offcut && offcuts == Offcuts::left_out)) continue;
    if (!(ball.*length)) return std::nullopt;
    sum += *(ball.*length);
  }
  return sum;
}

// For the rows that are still to be worked, and the edging.
std::optional<Length> needed(const Piece& piece, const State& state, const Aside& aside) {
  const std::optional<Length> row = state.gauge.row();
  if (!piece.rows || !row) return std::nullopt;
  if (!state.at) return aside.foundation + *piece.rows * *row + aside.edging;
  const int stitch = state.at->stitch.value_or(*state.fabric.stitches);
  const Length rest =
      (*piece.rows - state.at->row) * *row + (*state.fabric.stitches - stitch) * *state.fabric.yarn_per_stitch;
  return std::max(rest, Length()) + aside.edging;
}

constexpr double kHair = 1e-9;

// A ball from which a little more was worked than it should hold was that much longer: nothing of it is missing. Where
// it is too much for that, the log lacks a join, or a row is a slip of the pen.
void tell_enough(Length need, State& state) {
  const BallState* ball = state.working ? &state.balls[*state.working] : nullptr;
  const Length overdrawn = ball != nullptr ? ball->overdrawn : Length();
  if (overdrawn > kBallDoubt * (ball != nullptr ? ball->length.value_or(Length()) : Length())) return;
  state.left.enough = *state.left.length + Length::cm(kHair) >= need;
  if (!*state.left.enough) state.left.missing = need - *state.left.length;
}

}  // namespace

void add_up(const Project& project, const Aside& aside, State& state) {
  state.totals = waste_of(state, aside);
  Totals& totals = state.totals;
  const Yarn& yarn = state.yarn;
  if (yarn.ball_mass && yarn.ball_length) totals.waste_mass = *yarn.ball_mass * (totals.waste / *yarn.ball_length);
  totals.bought = sum_of(state.balls, &BallState::length, Offcuts::left_out);
  if (totals.bought && *totals.bought > Length()) totals.waste_share = totals.waste / *totals.bought;

  const std::optional<Length> row = state.gauge.row();
  if (project.piece.rows && row) {
    state.planned = aside.foundation + *project.piece.rows * *row + aside.edging + aside.swatches;
  }
  if (!state.at) state.left.foundation = aside.foundation;
  state.left.length = sum_of(state.balls, &BallState::left, Offcuts::counted);
  state.left.needed = needed(project.piece, state, aside);
  if (!state.left.length) return;
  constexpr double most = 1e9;
  const Length for_rows = std::max(*state.left.length - state.left.foundation, Length());
  if (row) state.left.rows = static_cast<int>(std::min(std::floor(for_rows / *row + kHair), most));
  if (state.left.needed) tell_enough(*state.left.needed, state);
}

}  // namespace ballchange
