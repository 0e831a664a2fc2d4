#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>

#include "base/text.hpp"
#include "ledger/shifts.hpp"
#include "show/check_project.hpp"
#include "show/contradiction.hpp"
#include "show/entry_text.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kDate = 10;  // 2026-03-02

std::string grams(Mass mass) {
  const double g = mass.g();
  if (g < 0.05) return "less than 0.1 g";
  return fmt::format("about {} g", g < 10 ? std::round(g * 10) / 10 : std::round(g));
}

// What became of the joins that no longer hold, by their entries' numbers.
std::vector<std::string_view> fates(const LogShown& shown) {
  std::vector<std::string_view> fates(shown.project.entries.size() + 1);
  for (const JoinState& join : shown.state.joins) {
    if (join.held == JoinHeld::apart) fates[static_cast<std::size_t>(join.entry)] = "(came apart) ";
    if (join.held == JoinHeld::cut_out) fates[static_cast<std::size_t>(join.entry)] = "(cut out) ";
  }
  return fates;
}

std::string entry_lines(const LogShown& shown, std::size_t columns) {
  if (shown.entries.empty()) return "No entries.\n";
  const std::vector<std::string_view> became = fates(shown);
  const std::size_t wide = fmt::formatted_size("{}", shown.entries.back() + 1);
  std::string text;
  for (const std::size_t index : shown.entries) {
    const LogEntry& entry = shown.project.entries[index];
    const std::string date = format_moment(entry.at).substr(0, kDate);
    const std::string_view mark = shown.state.cancelled[index]   ? "(cancelled) "
                                  : !shown.state.counts(entry.n) ? "(doesn't count) "
                                                                 : became[index + 1];
    text += labelled(fmt::format("{:>{}} {} ", entry.n, wide, date),
                     fmt::format("{}{}", mark, entry_words(entry.what, shown.state.fabric.working)), columns);
  }
  return text;
}

}  // namespace

std::string joins_words(const State& state) {
  int ahead = 0;
  for (const JoinState& join : state.joins) ahead += join.held == JoinHeld::ahead && !join.knot_left ? 1 : 0;
  std::string text = fmt::format("{}", state.totals.joins);
  if (ahead > 0) text += fmt::format(", {} of them ahead of the work", ahead);
  if (const int left = state.totals.knots_left; left > 0) {
    text += fmt::format("; {} knot{} left as {}", left, left == 1 ? "" : "s", left == 1 ? "it is" : "they are");
  }
  return text + ".";
}

std::vector<WasteCause> waste_causes(const Totals& totals, Told told) {
  std::vector<WasteCause> parts;
  const auto part = [&](Length length, std::string_view what) {
    if (!is_nothing(length, told)) parts.push_back({length, what});
  };
  part(totals.by_cause.begin, "left off before the first stitch");
  part(totals.by_cause.step, "cut off to keep in step");
  part(totals.by_cause.allowance, "in the joins");
  part(totals.by_cause.knots, "at knots");
  part(totals.by_cause.swatches, "in swatches");
  return parts;
}

std::string waste_in_full(const Totals& totals, Told told) {
  std::string text = waste_words(totals, told);
  if (totals.bought && *totals.bought > Length()) text += " bought";
  if (totals.waste_share && totals.waste > Length()) text += fmt::format(", {}", percent(*totals.waste_share));
  if (totals.waste_mass && totals.waste > Length()) text += fmt::format(", {}", grams(*totals.waste_mass));
  const std::vector<WasteCause> by = waste_causes(totals, told);
  if (by.size() == 1) text += fmt::format(", {}", by.front().words);
  text += ".";
  if (by.size() < 2) return text;
  std::vector<std::string> each;
  for (const WasteCause& cause : by) each.push_back(fmt::format("{} {}", amount(cause.length, told), cause.words));
  return text + fmt::format(" {}.", and_list(each));
}

namespace {

// " 2 of 3 as counted in the work, 1 as recorded; counted so."; empty where none was counted. `as_counted`: that is
// told even where a count bears the record out.
std::string told_by(const State& state, bool as_counted) {
  int in_work = 0;
  int counted = 0;
  int borne_out = 0;
  for (const JoinState& join : state.joins) {
    if (join.held != JoinHeld::in_work) continue;
    ++in_work;
    if (!join.seen) continue;
    ++counted;
    borne_out += !as_counted && bears_out(join, state.yarn.repeat) ? 1 : 0;
  }
  if (counted == 0) return {};
  if (borne_out == 0) return fmt::format(" {} of {} as counted in the work.", counted, in_work);
  if (borne_out == counted) return fmt::format(" {} of {} as recorded; counted so in the work.", counted, in_work);
  return fmt::format(" {} of {} as counted in the work, {} as recorded; counted so.", counted - borne_out, in_work,
                     borne_out);
}

}  // namespace

std::string running_shift_words(const State& state, Told told) {
  if (!state.totals.running_shift) {
    const auto untold = std::find_if(state.joins.begin(), state.joins.end(), [](const JoinState& join) {
      return join.held == JoinHeld::in_work && !join.shift;
    });
    assert(untold != state.joins.end());
    return fmt::format("not known: entry {} doesn't tell its own.", untold->entry);
  }
  const Length shift = *running_shift_told(state);
  const std::string by = told_by(state, shift == *state.totals.running_shift);
  if (is_nothing(shift, told)) return "none: the colours are in step with the beginning." + by;
  return fmt::format("{}, all joins together.{}", shift_words(shift, told), by);
}

namespace {

// "33.5 cm wide, 25 cm tall": as far as it is known.
std::string size_text(const State& state, std::optional<double> stitches, std::optional<double> rows, Told told) {
  const Told on_work = told == Told::inches ? told : Told::centimetres;
  std::vector<std::string> parts;
  if (stitches && state.fabric.stitches) {
    parts.push_back(tape(Length::cm(*state.fabric.stitches / *stitches * 10), on_work) + " wide");
  }
  if (rows) parts.push_back(tape(Length::cm(state.at->row / *rows * 10), on_work) + " tall");
  return fmt::format("{}", fmt::join(parts, ", "));
}

}  // namespace

std::string size_words(const State& state, Told told) {
  if (!state.at) return {};
  const std::string now = size_text(state, state.stitches_in_10cm, state.rows_in_10cm, told);
  const std::string washed = size_text(state, state.washed_stitches_in_10cm, state.washed_rows_in_10cm, told);
  if (washed.empty()) return now.empty() ? now : now + ".";
  return fmt::format("{} once washed{}.", washed, now.empty() ? "" : fmt::format("; {} now, before it is", now));
}

namespace {

// What a tape shows on the hook is told elsewhere; here only what washing makes of it.
std::string size_line(const State& state, Told told, std::size_t columns) {
  if (!state.washed_stitches_in_10cm && !state.washed_rows_in_10cm) return {};
  const std::string words = size_words(state, told);
  return words.empty() ? words : labelled("Size", words, columns);
}

std::string ball_line(const LogShown& shown, const LeftShown& left, const BallState& ball, Told told) {
  std::string text = fmt::format("{}: {}", printable(ball.id, 60), use_words(ball.use));
  if (ball.use != BallUse::used_up && ball.left) text += fmt::format(", {} left", left_on_ball(left, ball, told));
  if (ball.plain) text += ", plain";
  if (ball.dye_lot) text += fmt::format(", dye lot {}", printable(*ball.dye_lot, 60));
  if (ball.offcut) text += fmt::format(", cut off at entry {}", shown.state.offcuts[*ball.offcut].entry);
  if (ball.use == BallUse::fresh && !ball.plain && !ball.first_reading() && !ball.first_as_cut()) {
    text += fmt::format(", its {} end yet to be read", end_name(ball.from));
  }
  if (std::binary_search(shown.unsettled.begin(), shown.unsettled.end(), &ball, std::less<>())) {
    text += fmt::format(", where its {} end lies can't be told yet", end_name(ball.from));
  }
  return text + ".";
}

std::string ball_lines(const LogShown& shown, const LeftShown& left, Told told, std::size_t columns) {
  std::string text;
  for (const BallState& ball : shown.state.balls) {
    if (shown.ball != nullptr && shown.ball != &ball) continue;
    const std::string_view label = !text.empty() ? "" : shown.ball != nullptr ? "Ball" : "Balls";
    text += labelled(label, ball_line(shown, left, ball, told), columns);
  }
  return text;
}

}  // namespace

std::string_view use_words(BallUse use) {
  switch (use) {
    case BallUse::fresh:
      return "fresh";
    case BallUse::working:
      return "in the work";
    case BallUse::joined_ahead:
      return "joined ahead of the work";
    case BallUse::used_up:
      break;
  }
  return "used up";
}

std::string waste_words(const Totals& totals, Told told) {
  if (!totals.bought || *totals.bought <= Length()) return amount(totals.waste, told);
  return fmt::format("{} of {}", amount(totals.waste, told), amount(*totals.bought, told));
}

std::string waste_line(const Totals& totals, Told told, std::size_t columns) {
  return labelled("Cut away", fmt::format("so far {}.", waste_words(totals, told)), columns);
}

std::string log_screen(const LogShown& shown, const Screen& screen, Told told) {
  const State& state = shown.state;
  const std::size_t columns = screen.text_columns();
  std::string text = shown.project.name.empty() ? "" : wrapped(printable(shown.project.name), columns) + "\n";
  if (shown.only_offcuts) return text + offcut_lines(*shown.offcuts, told, columns);
  text += entry_lines(shown, columns) + "\n";
  const stock::Stock weighed =
      shown.stock != nullptr ? shown.stock->stock : stock::stock_of(state, stock::doubts_of(state));
  const LeftShown left{state, weighed};
  if (shown.ball != nullptr) return text + ball_lines(shown, left, told, columns);
  if (shown.entries.size() < shown.project.entries.size()) text += "Since the beginning:\n";
  text += labelled("Joins", joins_words(state), columns);
  text += labelled("Cut away", waste_in_full(state.totals, told), columns);
  if (shown.offcuts != nullptr) text += offcuts_line(*shown.offcuts, told, columns);
  if (state.totals.joins + state.totals.knots_left > 0) {
    text += labelled("Shift", running_shift_words(state, told), columns);
  }
  if (shown.contested) text += labelled("Mind", contested_words(*shown.contested, told), columns);
  if (shown.creep != nullptr) text += creep_lines(*shown.creep, told, columns);
  text += ball_lines(shown, left, told, columns);
  if (const auto odd = scale_contradiction(state, weighed); odd && !stock::left_is_unknown(weighed, *weighed.odd)) {
    text += labelled("Mind", odd->told + "." + (odd->twice ? " " + odd->asked : ""), columns);
  }
  if (shown.creep != nullptr) text += longer_balls_lines(*shown.creep, told, columns);
  const std::string size = size_line(state, told, columns);
  if (shown.stock == nullptr || !shown.stock->outlook) return text + work_lines(left, told, columns) + size;
  return text + stands_line(state, told, columns) + yarn_line(left, told, columns, false) +
         enough_lines(*shown.stock, told, columns) + size;
}

}  // namespace ballchange
