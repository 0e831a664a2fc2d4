#include "project/begun.hpp"

#include <algorithm>

#include "base/problem.hpp"
#include "creep/walk.hpp"
#include "match/place.hpp"
#include "project/project.hpp"

namespace ballchange {
namespace {

double square(double number) { return number * number; }

// The place of a reading's loose end, along the repeat as it is worked.
std::optional<BegunAt> loose_end(const Project& project, const State& state, const std::string& text, End end,
                                 const BallState& ball, std::string_view what) {
  Palette palette{state.yarn.repeat.colours(), false};
  const Ruler ruler = ruler_on_record(state.ruler, project);
  try {
    const Reading reading = parse_reading(text, end, palette, ruler, std::string(what));
    const Placing placing = Matcher(state.yarn).match(reading, expected({}, ball, ball.from));
    if (placing.verdict != Verdict::settled) return std::nullopt;
    const Direction direction = placing.best().direction;
    const Length place = direction == Direction::forward ? placing.place : state.yarn.repeat.total() - placing.place;
    return BegunAt{direction, place, square(placing.spread_sd)};
  } catch (const Problem&) {
    return std::nullopt;
  }
}

// Where the work comes to, without a join, had it begun at the repeat's beginning.
Length before_join(const creeping::Walk& walk, const JoinState& join) {
  const auto& turns = walk.turns();
  const auto turn =
      std::find_if(turns.begin(), turns.end(), [&](const creeping::Turn& one) { return one.join == &join; });
  return turn == turns.end() ? walk.place(*join.used) : turn->place;
}

std::optional<ReckonedBack> from_joins(const Project& project, const State& state, const creeping::Walk& walk) {
  for (const JoinState& join : state.joins) {
    const auto* cut = std::get_if<did::Join>(&project.entries[static_cast<std::size_t>(join.entry) - 1].what);
    const BallState* ball = state.find_ball(join.old_ball);
    if (join.held != JoinHeld::in_work || !join.used || cut == nullptr || !cut->old_reading || ball == nullptr)
      continue;
    auto end = loose_end(project, state, *cut->old_reading, End::old_end, *ball, "join");
    if (!end) continue;
    // The join's middle lies so far before the end that was loose.
    end->place = end->place - join.trim_old - join.allowance.value_or(Length()) / 2 - before_join(walk, join);
    return ReckonedBack{join.entry, *end};
  }
  return std::nullopt;
}

std::optional<ReckonedBack> from_sightings(const State& state, const creeping::Walk& walk) {
  const Repeat& repeat = state.yarn.repeat;
  for (const Sighting& sighting : state.sightings) {
    if (!sighting.used || sighting.seen.what == Seen::What::counted) continue;
    const auto& sections = repeat.sections();
    const auto of_colour = [&](const Section& section) { return section.colour == sighting.seen.colour; };
    const auto section = std::find_if(sections.begin(), sections.end(), of_colour);
    if (section == sections.end() || std::find_if(section + 1, sections.end(), of_colour) != sections.end()) continue;
    const std::size_t index = static_cast<std::size_t>(section - sections.begin());
    const Length begins = repeat.start(index);
    const Length change = sighting.seen.what == Seen::What::begins ? begins : begins + section->length;
    return ReckonedBack{sighting.entry,
                        {Direction::forward, change - walk.place(*sighting.used), walk.counting_variance(sighting)}};
  }
  return std::nullopt;
}

}  // namespace

std::optional<BegunAt> begun_at(const Project& project, const State& state) {
  if (!state.begun || !state.begun->reading) return std::nullopt;
  auto begun = loose_end(project, state, *state.begun->reading, End::new_end, state.balls[state.begun->ball], "begin");
  if (begun) begun->place = begun->place + state.begun->trim;
  return begun;
}

std::optional<Direction> direction_on_record(const Project& project, const State& state, const BallState& ball) {
  const auto way = [&](const std::optional<std::string>& text, End end, const BallState& of) {
    const auto read = text ? loose_end(project, state, *text, end, of, "join") : std::nullopt;
    return read ? std::optional(read->direction) : std::nullopt;
  };
  // A strand made of several balls runs one way, so the joins before tell it as well; those nearest to the hook first.
  for (auto join = state.joins.rbegin(); join != state.joins.rend(); ++join) {
    if (join->held != JoinHeld::in_work || join->knot) continue;
    const auto* cut = std::get_if<did::Join>(&project.entries[static_cast<std::size_t>(join->entry) - 1].what);
    if (cut == nullptr) continue;
    const BallState* after = state.find_ball(join->new_ball);
    if (after != nullptr) {
      if (const auto told = way(cut->new_reading, End::new_end, *after)) return told;
    }
    const BallState* before = state.find_ball(join->old_ball);
    if (before != nullptr) {
      if (const auto told = way(cut->old_reading, End::old_end, *before)) return told;
    }
  }
  if (const auto begun = begun_at(project, state)) return begun->direction;
  return way(ball.other_reading(), End::old_end, ball);
}

std::optional<ReckonedBack> reckoned_back(const Project& project, const State& state) {
  if (!state.gauge.now().yarn_per_stitch) return std::nullopt;
  const creeping::Walk walk(state, state.yarn.repeat, Length());
  if (auto found = from_joins(project, state, walk)) return found;
  return from_sightings(state, walk);
}

}  // namespace ballchange
