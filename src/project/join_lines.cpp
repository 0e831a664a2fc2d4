#include "project/join_lines.hpp"

#include <fmt/core.h>

#include "base/text.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostJoins = 8;

std::string which(const JoinState& join) {
  if (join.knot) return fmt::format("the knot in ball {} (entry {})", printable(join.new_ball, 60), join.entry);
  if (join.old_ball.empty())
    return fmt::format("the join to ball {} (entry {})", printable(join.new_ball, 60), join.entry);
  return fmt::format("the join of balls {} and {} (entry {})", printable(join.old_ball, 60),
                     printable(join.new_ball, 60), join.entry);
}

std::string cut_out(const JoinState& join, const State& state) {
  std::string text = fmt::format("{} is cut out.", which(join));
  const BallState* freed = state.find_ball(join.new_ball);
  if (!join.knot && freed != nullptr && freed->use == BallUse::fresh && !freed->first_reading()) {
    text += fmt::format(" Read ball {}'s end again before choosing it.", printable(freed->id, 60));
  }
  return text;
}

std::string fate(const JoinState& before, const JoinState& after, const State& state) {
  const std::string_view method = method_row(after.method).name;
  switch (after.held) {
    case JoinHeld::ahead: {
      std::string text = fmt::format("{} stays joined ({})", which(after), method);
      if (after.place)
        text += fmt::format(" and lands at {} again when that is worked", place_words(after, state.fabric.working));
      return text + ".";
    }
    case JoinHeld::apart:
      return fmt::format(
          "{} comes apart ({}); what was trimmed stays trimmed. Read {} end again before choosing a ball, and the end "
          "at the hook.",
          which(after), method, after.knot ? "the other" : fmt::format("ball {}'s", printable(after.new_ball, 60)));
    case JoinHeld::cut_out:
      return cut_out(after, state);
    case JoinHeld::in_work:
      break;
  }
  return before.held == JoinHeld::ahead ? fmt::format("{} is in the work now.", which(after)) : std::string();
}

}  // namespace

std::string join_lines(const Recorded& recorded, std::size_t columns) {
  std::string lines;
  std::size_t told = 0;
  std::size_t more = 0;
  for (std::size_t i = 0; i < recorded.before.joins.size(); ++i) {
    const JoinState& before = recorded.before.joins[i];
    const JoinState& after = recorded.after.joins[i];
    if (before.held == after.held) continue;
    const std::string text = fate(before, after, recorded.after);
    if (text.empty()) continue;
    if (told == kMostJoins) {
      ++more;
      continue;
    }
    lines += labelled(told++ == 0 ? "Joins" : "", text, columns);
  }
  if (more > 0) lines += labelled("", fmt::format("And {} more; ballchange log tells of them.", more), columns);
  return lines;
}

}  // namespace ballchange
