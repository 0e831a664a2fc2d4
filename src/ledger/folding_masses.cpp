#include <fmt/format.h>

#include <algorithm>

#include "base/number.hpp"
#include "base/scale.hpp"
#include "base/text.hpp"
#include "ledger/folding.hpp"
#include "ledger/maybe.hpp"

namespace ballchange {
namespace {

std::string grams(Mass mass) { return fmt::format("{} g", plain_number(mass.g(), 2)); }

constexpr double kHair = 1e-9;  // grams

Mass step_of(Mass mass, const std::optional<Mass>& told) { return told.value_or(ballchange::step_of(mass)); }

}  // namespace

std::optional<Length> Folding::weighed(const BallState& ball, Mass mass) const {
  if (ball.mass && ball.length && *ball.mass > Mass()) return *ball.length * (mass / *ball.mass);
  if (ball.plain || !state_.yarn.ball_mass) return std::nullopt;
  BallState as_weighed = ball;
  as_weighed.mass = mass;
  return length_of(as_weighed, std::nullopt);
}

// What is told of a whole ball holds for all that was weighed of it before, too: told at once, it comes to the same.
void Folding::measure_anew(std::size_t index, const BallState& next) {
  BallState& ball = state_.balls[index];
  Maybe more = difference(next.length, ball.length);  // that the ball holds than was thought
  Maybe holds = next.length;                          // where it wasn't known
  ball.mass = next.mass;
  ball.length = next.length;
  ball.plain = next.plain;
  for (const std::size_t k : weighings_of_[index]) {
    Weighing& weighing = state_.weighings[k];
    const Maybe left = weighed(ball, weighing.mass);
    weighing.expected = sum(weighing.expected, more);
    if (!weighing.left && left) {
      settled_[static_cast<std::size_t>(weighing.entry)] = true;
    }
    more = difference(left, weighing.left);
    holds = left;
    weighing.left = left;
  }
  if (more) {
    strands_.shorten(index, -*more);
  } else if (holds) {
    strands_.set_left(index, *holds);
  }
}

// Nothing makes a ball heavier but what was ravelled, which may have been wound onto it again.
void Folding::check_lighter(std::size_t index, const did::Weigh& entry) const {
  const BallState& ball = state_.balls[index];
  const std::vector<std::size_t>& weighings = weighings_of_[index];
  const Weighing* last = weighings.empty() ? nullptr : &state_.weighings[weighings.back()];
  if (last != nullptr && last->rips < rips_) last = nullptr;
  if (last == nullptr && !ball.mass) return;
  const Mass before = last != nullptr ? last->mass : *ball.mass;
  const Mass step =
      std::max(step_of(before, last != nullptr ? last->scale : ball.scale), step_of(entry.mass, entry.scale));
  if (entry.mass.g() <= before.g() + step.g() + kHair) return;
  const int since = last != nullptr ? last->entry : ball.entry;
  const std::string what = entry_ == just_told_ ? "--mass: " : "";
  const std::string remedy = entry_ == just_told_ ? "weigh it again, or name the ball that was weighed with --ball"
                                                  : "write what the scale said, or the ball that was weighed";
  std::string more;
  if (last != nullptr) {
    more = fmt::format("; or cancel entry {}, if that was misread", since);
  } else if (entry_ == just_told_ && strands_.loose(index) && !ball.plain) {
    more = fmt::format("; or, if that is what the whole ball weighs, tell it: ballchange ball --ball {} --mass {:.4g}g",
                       typed_path(ball.id), entry.mass.g());
  }
  refuse("{}{} weighed {} at entry {} and can't weigh {} now; {}{}", what, who(index), grams(before), since,
         grams(entry.mass), remedy, more);
}

// Nor can the whole ball have been lighter than what was weighed of it.
void Folding::check_whole_mass(std::size_t index, const did::Ball& entry) const {
  for (const std::size_t k : weighings_of_[index]) {
    const Weighing& weighing = state_.weighings[k];
    const Mass step = std::max(step_of(weighing.mass, weighing.scale), step_of(*entry.mass, entry.scale));
    if (weighing.mass.g() <= entry.mass->g() + step.g() + kHair) continue;
    refuse(
        "{}: {} weighed {} at entry {}, and the whole ball can't have weighed {}; cancel entry {}, if that was misread",
        named("mass"), who(index), grams(weighing.mass), weighing.entry, grams(*entry.mass), weighing.entry);
  }
}

void Folding::apply(const did::Weigh& entry) {
  const std::size_t ball = known(entry.ball);
  if (!strands_.has_far_end(ball)) {
    const auto ahead = strands_.begun() && strands_.current().ball == ball ? strands_.next_ball_ahead() : std::nullopt;
    if (ahead) {
      refuse(
          "{0} hangs together with {1}, joined ahead of the work, and can't be weighed by itself; weigh {1} once the "
          "work is past the join",
          who(ball), who(*ahead));
    }
    refuse("{} is used up; nothing of it is left to weigh", who(ball));
  }
  check_lighter(ball, entry);
  // The scale tells what is left, so the yarn in the work must not be taken off again.
  if (state_.at && !strands_.begun() && next_dyed(0) == ball) {
    begin_with(ball, Length());
    strands_.stand(state_.at, state_.used);
  }
  const auto left = weighed(state_.balls[ball], entry.mass);
  const bool in_work = strands_.begun() && strands_.current().ball == ball;
  weighings_of_[ball].push_back(state_.weighings.size());
  state_.weighings.push_back({entry_, ball, entry.mass, entry.scale, in_work, state_.at, state_.used,
                              strands_.left(ball), left, rips_, breaks_[ball] + sizes_});
  if (left) {
    strands_.set_left(ball, *left);
  } else if (!state_.balls[ball].plain || state_.balls[ball].length) {
    // A plain ball of which nothing was told is counted by weights alone.
    remark(fmt::format("{}: its mass says no length while mass and length of a whole ball aren't known", who(ball)));
  }
}

// A weighing in the work past the join that ends its ball says nothing of that ball.
void Folding::tell_past_end() {
  for (const JoinState& join : state_.joins) {
    const auto ball = index_.find(join.old_ball);
    if (join.knot || !join.lands() || !join.used || ball == index_.end()) continue;
    constexpr Length hair = Length::cm(1e-6);
    const Length later = join.at_least ? std::max(join.old_left.value_or(Length()), Length()) : Length();
    std::vector<std::string> entries;
    for (const std::size_t k : weighings_of_[ball->second]) {
      Weighing& weighing = state_.weighings[k];
      weighing.past_end = weighing.in_work && weighing.used && *weighing.used > *join.used + later + hair;
      if (weighing.past_end) entries.push_back(std::to_string(weighing.entry));
    }
    if (entries.empty()) continue;
    const bool one = entries.size() == 1;
    state_.troubles.push_back(
        {join.entry, false,
         fmt::format(
             "{} was weighed with the work past this join, where it ends ({} {}): another ball was on the scale "
             "then; cancel {}, and weigh the ball it was",
             who(ball->second), one ? "entry" : "entries", fmt::join(entries, ", "), one ? "that" : "those")});
  }
}

}  // namespace ballchange
