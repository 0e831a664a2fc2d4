#include "project/balls.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <variant>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "show/check_project.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kNamed = 12;

std::string what_there_is(const State& state) {
  if (state.balls.empty()) return "the project has none yet: add one with ball";
  std::vector<std::string> names;
  for (const BallState& ball : state.balls) {
    if (names.size() == kNamed) break;
    names.push_back(printable(ball.id, 40));
  }
  if (state.balls.size() > kNamed) return fmt::format("the project's are {} and so on", fmt::join(names, ", "));
  return fmt::format("the project's are {}", and_list(names));
}

}  // namespace

const BallState* ball_written_like(const State& state, std::string_view id) {
  const std::string folded = fold_case(id);
  const auto found = std::find_if(state.balls.begin(), state.balls.end(),
                                  [&](const BallState& ball) { return fold_case(ball.id) == folded; });
  return found == state.balls.end() ? nullptr : &*found;
}

const BallState& ball_named(const State& state, const std::string& id) {
  if (const BallState* found = state.find_ball(id)) return *found;
  if (const BallState* near = ball_written_like(state, id)) {
    throw Problem(Fault::content, fmt::format("--ball: there is no ball {}; did you mean {}?", printable(id, 60),
                                              printable(near->id, 60)));
  }
  throw Problem(Fault::content,
                fmt::format("--ball: there is no ball {}; {}", printable(id, 60), what_there_is(state)));
}

std::vector<const BallState*> fresh_balls(const State& state) {
  std::vector<const BallState*> fresh;
  for (const BallState& ball : state.balls) {
    if (ball.use == BallUse::fresh && !ball.plain && !ball.offcut) fresh.push_back(&ball);
  }
  return fresh;
}

const BallState* fresh_offcut(const State& state) {
  const BallState* longest = nullptr;
  for (const BallState& ball : state.balls) {
    if (ball.use != BallUse::fresh || ball.plain || !ball.offcut) continue;
    if (longest == nullptr || longest->left < ball.left) longest = &ball;
  }
  return longest;
}

BallState before_its_use(const Project& project, const State& state, const BallState& ball) {
  if (ball.use == BallUse::fresh) return ball;
  BallState then = ball;
  then.use = BallUse::fresh;
  then.left = ball.length;
  std::optional<std::string>& first = ball.from == BallEnd::outside ? then.outside : then.inside;
  std::optional<std::string>& other = ball.from == BallEnd::outside ? then.inside : then.outside;
  first.reset();
  other.reset();
  bool used = false;
  const bool begun_untold = state.begun && state.begun->entry == 0 && state.balls[state.begun->ball].id == ball.id;
  for (const LogEntry& entry : project.entries) {
    if (!state.counts(entry.n)) continue;
    if (const auto* told = std::get_if<did::Ball>(&entry.what); told != nullptr && told->ball == ball.id) {
      const auto& first_told = ball.from == BallEnd::outside ? told->outside : told->inside;
      const auto& other_told = ball.from == BallEnd::outside ? told->inside : told->outside;
      if (first_told && !used) first = first_told;
      if (other_told) other = other_told;
    } else if (const auto* begin = std::get_if<did::Begin>(&entry.what)) {
      used = used || begin->ball == ball.id;
    } else if (const auto* join = std::get_if<did::Join>(&entry.what); join != nullptr && join->ball == ball.id) {
      if (!used && !join->knot && join->new_reading) first = join->new_reading;
      used = true;
    } else if (const auto* swatch = std::get_if<did::Swatch>(&entry.what)) {
      if (!used && swatch->ball == ball.id) first.reset();
    } else if (std::holds_alternative<did::Row>(entry.what)) {
      used = used || begun_untold;
    }
  }
  return then;
}

const JoinState* next_join_ahead(const State& state) {
  const JoinState* next = nullptr;
  for (const JoinState& join : state.joins) {
    // On a strand that lies loose it isn't known where a join will fall.
    if (join.held != JoinHeld::ahead || (!join.place && !join.used)) continue;
    const bool before =
        next == nullptr || (join.used && next->used ? *join.used < *next->used : join.place < next->place);
    if (before) next = &join;
  }
  return next;
}

std::optional<OtherLot> other_lot(const State& state, const BallState& ball) {
  if (ball.plain || !ball.dye_lot) return std::nullopt;
  const BallState* held_against = state.working ? &state.balls[*state.working] : nullptr;
  if (held_against == nullptr || held_against->plain || held_against->id == ball.id) {
    held_against = nullptr;
    for (const BallState& other : state.balls) {
      if (other.id == ball.id) break;
      if (!other.plain && other.dye_lot) held_against = &other;
    }
  }
  if (held_against == nullptr || !held_against->dye_lot) return std::nullopt;
  if (*held_against->dye_lot == *ball.dye_lot) return std::nullopt;
  return OtherLot{ball.id, *ball.dye_lot, held_against->id, *held_against->dye_lot};
}

std::string next_name(const State& state) {
  constexpr std::size_t letters = 26;
  std::set<std::string_view> borne;
  for (const BallState& ball : state.balls) borne.insert(ball.id);
  for (std::size_t n = 0;; ++n) {
    std::string name;
    for (std::size_t rest = n + 1; rest > 0; rest = (rest - 1) / letters) {
      name.insert(name.begin(), static_cast<char>('A' + (rest - 1) % letters));
    }
    if (borne.count(name) == 0) return name;
  }
}

}  // namespace ballchange
