#include "show/entry_text.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/normal.hpp"
#include "base/text.hpp"
#include "stock/enough.hpp"

namespace ballchange {
namespace {

std::string said(const std::string& text) { return printable(text); }

// To four decimals, in its own unit.
std::string fine(const Amount& amount) {
  return fmt::format("{} {}", std::round(amount.number * 1e4) / 1e4 + 0.0, unit_name(amount.unit));
}

bool in_parts(double number, double parts) {
  constexpr double hair = 1e-6;
  return std::abs(number * parts - std::round(number * parts)) < hair;
}

// As it was told, in its own unit; one that was worked out, as a tape holds it.
std::string said(const Amount& amount) {
  constexpr double tenths = 10, eighths = 8;
  if (in_parts(amount.number, tenths) || in_parts(amount.number, eighths)) return fine(amount);
  if (amount.unit == Unit::st) return stitches(std::lround(amount.number));
  const Length length = to_length({amount.number, amount.unit}, {}, "");
  return tape(length, imperial(amount.unit) ? Told::inches : Told::centimetres);
}

// A scale tells tenths of a gram, a good one hundredths; what has more was weighed in ounces.
std::string said(Mass mass) {
  constexpr double hundredths = 100;
  const double g = mass.g();
  return fmt::format("{} g",
                     in_parts(g, hundredths) ? std::round(g * hundredths) / hundredths : std::round(g * 10) / 10);
}

// The parts of a sentence that were told, with commas between them.
class Parts {
 public:
  explicit Parts(std::string first) : text_(std::move(first)) {}
  void add(std::string_view part) { text_ += (text_.empty() ? "" : ", ") + std::string(part); }
  // `how` has one place for the value.
  template <typename Value>
  void add(std::string_view how, const std::optional<Value>& value) {
    if (value) add(fmt::format(fmt::runtime(how), said(*value)));
  }
  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  std::string text_;
};

// "the offcut of entry 12", "the offcut of entry 12 (off the new end)"
std::string offcut_words(int entry, std::optional<End> cut_from) {
  std::string text = fmt::format("the offcut of entry {}", entry);
  if (cut_from) text += fmt::format(" (off the {} end)", cut_from_name(*cut_from));
  return text;
}

std::string words(const did::Ball& ball) {
  Parts parts(fmt::format("ball {}", said(ball.ball)));
  if (ball.offcut) parts.add(offcut_words(*ball.offcut, ball.cut_from));
  if (ball.plain) parts.add("plain");
  parts.add("{}", ball.mass);
  parts.add("on a scale that shows {}", ball.scale);
  parts.add("{} long", ball.length);
  parts.add("dye lot {}", ball.dye_lot);
  if (ball.from) parts.add(fmt::format("worked from the {}", end_name(*ball.from)));
  if (ball.wound) parts.add(*ball.wound == Winding::hand ? "wound by hand" : "wound at the mill");
  std::string text = parts.take();
  if (ball.outside) text += fmt::format("; outside: {}", said(*ball.outside));
  if (ball.inside) text += fmt::format("; inside: {}", said(*ball.inside));
  return text;
}

std::string words(const did::Begin& begin) {
  Parts parts(fmt::format("work begun with ball {}", said(begin.ball)));
  if (begin.trim_new && begin.trim_new->number > 0) parts.add("{} kept out of it", begin.trim_new);
  return parts.take();
}

std::string words(const did::Row& row, Working working) {
  std::string text = place_words({row.row, row.stitch}, working) + (row.stitch ? "" : " finished");
  for (const std::string& seen : row.seen) text += fmt::format("; seen: {}", said(seen));
  return text;
}

std::string words(const did::Join& join, Working working) {
  Parts parts(join.knot ? fmt::format("knot in ball {}", said(join.ball))
                        : fmt::format("joined to ball {}", said(join.ball)));
  if (join.method) parts.add(method_row(*join.method).name);
  parts.add("{} off the old end", join.trim_old);
  parts.add("{} off the new end", join.trim_new);
  parts.add("{} in the join", join.allowance);
  if (join.shift && join.shift->number != 0) {
    const Amount size{std::abs(join.shift->number), join.shift->unit};
    parts.add(fmt::format("colours {} {}", join.shift->number > 0 ? "skip" : "repeat", said(size)));
  }
  if (join.row) {
    parts.add(fmt::format("at {}{}", place_words({*join.row, join.stitch}, working), join.at_least ? " or later" : ""));
  }
  return parts.take();
}

std::string words(const did::Weigh& weigh) {
  Parts parts(fmt::format("ball {} weighs {}", said(weigh.ball), said(weigh.mass)));
  parts.add("on a scale that shows {}", weigh.scale);
  return parts.take();
}

std::string words(const did::Rip& rip, Working working) {
  return rip.row == 0 ? std::string("ravelled back to the foundation")
                      : fmt::format("ravelled back to the end of {} {}", row_word(working), rip.row);
}

std::string words(const did::Cancel& cancel) { return fmt::format("entry {} cancelled", cancel.entry); }

std::string words(const did::Gauge& gauge, Working working) {
  Parts parts("");
  if (gauge.yarn_per_stitch) parts.add(fine(*gauge.yarn_per_stitch) + " of yarn a stitch");
  if (gauge.yarn_per_turn) parts.add(fine(*gauge.yarn_per_turn) + " of yarn a turn");
  if (gauge.stitches_in_10cm) parts.add(fmt::format("{:.4g} stitches in 10 cm", *gauge.stitches_in_10cm));
  if (gauge.rows_in_10cm) parts.add(fmt::format("{:.4g} {}s in 10 cm", *gauge.rows_in_10cm, row_word(working)));
  if (gauge.washed_stitches_in_10cm) {
    parts.add(fmt::format("{:.4g} stitches in 10 cm washed", *gauge.washed_stitches_in_10cm));
  }
  if (gauge.washed_rows_in_10cm) {
    parts.add(fmt::format("{:.4g} {}s in 10 cm washed", *gauge.washed_rows_in_10cm, row_word(working)));
  }
  parts.add("size {}", gauge.size);
  return parts.take();
}

std::string words(const did::Swatch& swatch) {
  return fmt::format("swatch of {} from ball {}", said(swatch.length), said(swatch.ball));
}

std::string words(const did::Note& note) {
  std::string text = said(note.text);
  if (note.offcut) text += fmt::format("; took {}", offcut_words(*note.offcut, note.cut_from));
  return text;
}

std::string rows(double count, Working working) {
  const auto whole = static_cast<long>(std::floor(count + 1e-9));
  if (whole < 1) return fmt::format("less than one {}", row_word(working));
  return "about " + rows_words(whole, working);
}

// Weighed yarn is known no better than the scale tells it.
std::string left_words(const State& state, Length left, Length doubt, Told told) {
  return !stock::weighed(state) ? amount(left, told) : amount(left, told, kNineInTen * doubt);
}

// The ball in work came in there or later, so less of it may be worked; a scale has its own give or take.
bool left_at_least(const State& state) {
  return state.working && !stock::weighed(state) && state.begins_or_later(state.balls[*state.working].id);
}

}  // namespace

std::string left_on_ball(const LeftShown& shown, const BallState& ball, Told told) {
  const auto index = static_cast<std::size_t>(&ball - shown.state.balls.data());
  const auto& weighings = shown.state.weighings;
  const bool was_weighed =
      std::any_of(weighings.begin(), weighings.end(), [&](const Weighing& one) { return one.ball == index; });
  const auto& on = shown.stock.balls[index];
  const bool working = shown.state.working == index;
  if (working && left_at_least(shown.state)) return "at least " + amount(*ball.left, told);
  if (ball.plain || !on || !(was_weighed || working)) return amount(*ball.left, told);
  if (stock::left_is_unknown(shown.stock, index)) return "an unknown length";
  const Length left = std::max(on->left, Length());
  return left_words(shown.state, left, give_or_take(*on, shown.stock.doubts), told);
}

namespace {

// "78.8 m left on ball A, about 70 rows"
std::string ball_words(const LeftShown& shown, Told told) {
  const State& state = shown.state;
  if (!state.working) return {};
  const BallState& ball = state.balls[*state.working];
  const auto& on = shown.stock.balls[*state.working];
  if (!ball.left || ball.plain || !on) return {};
  const Working working = state.fabric.working;
  if (const auto reach = reaches_only(state)) {
    return fmt::format("ball {} reaches only about {} {}", said(ball.id), row_word(working), *reach);
  }
  if (stock::left_is_unknown(shown.stock, *state.working)) {
    return fmt::format("how much is left on ball {} isn't known: the {}s and the scale contradict each other",
                       said(ball.id), row_word(working));
  }
  if (ball.overdrawn > Length()) return fmt::format("ball {} should be about used up", said(ball.id));
  const bool least = left_at_least(state);
  const Length left = std::max(least ? *ball.left : on->left, Length());
  const Length doubt = give_or_take(*on, shown.stock.doubts);
  std::string text = fmt::format("{}{} left on ball {}", least ? "at least " : "", left_words(state, left, doubt, told),
                                 said(ball.id));
  if (const auto row = state.gauge.row()) {
    text += fmt::format(", {}", rows((left - state.left.foundation) / (*row * shown.stock.takes.share), working));
  }
  return text;
}

// A join that was recorded where the work is yet to come: nobody has told that it got there. Null where there is none.
const JoinState* counted_to_join(const State& state) {
  if (!state.hook || !(*state.hook < *state.at)) return nullptr;
  const auto at_it = [&](const JoinState& join) { return join.held == JoinHeld::in_work && join.place == state.at; };
  const auto join = std::find_if(state.joins.begin(), state.joins.end(), at_it);
  return join == state.joins.end() ? nullptr : &*join;
}

// On all that hold any: "630.93 m on all 6 balls, about 375 rows".
std::string all_words(const LeftShown& shown, Told told) {
  const State& state = shown.state;
  const Left left = left_by_scale(state, shown.stock);
  if (!left.length) return {};
  std::size_t balls = 0;
  std::vector<std::size_t> holding;
  for (std::size_t i = 0; i < state.balls.size(); ++i) {
    const BallState& ball = state.balls[i];
    balls += ball.plain ? 0U : 1U;
    if (!ball.plain && ball.left && !is_nothing(*ball.left, told)) holding.push_back(i);
  }
  if (holding.empty() || (holding.size() == 1 && (balls == 1 || holding.front() == state.working))) return {};
  const std::size_t count = holding.size();
  std::string text = left_at_least(state) ? "at least " : "";
  text += !stock::weighed(state) ? amount(*left.length, told) : amount(*left.length, told, *left.length / 100);
  if (count == 1) {
    text += " on ball " + said(state.balls[holding.front()].id);
  } else if (count < balls) {
    text += fmt::format(" on {} balls", count);
  } else {
    text += fmt::format(" on {} balls", count == 2 ? "both" : fmt::format("all {}", count));
  }
  if (left.rows) text += fmt::format(", {}", rows(*left.rows, state.fabric.working));
  return text;
}

// ". Not enough yet for the rows planned: 13.4 m short, about 12 rows or 1 ball"
std::string enough_words(const LeftShown& shown, Told told) {
  const Left left = left_by_scale(shown.state, shown.stock);
  if (!left.enough) return {};
  const std::string planned = fmt::format("for the {}s planned", row_word(shown.state.fabric.working));
  if (*left.enough && shown.chance.value_or(1) < stock::kSurely) {
    return fmt::format(". Not surely enough {}: see ballchange log", planned);
  }
  if (*left.enough) return ". Enough " + planned;
  const std::string much = short_words(shown.state, shown.stock, told);
  return ". Not enough yet " + planned + (much.empty() ? "" : ": " + much);
}

}  // namespace

std::string entry_words(const Did& what, Working working) {
  return std::visit(
      [working](const auto& entry) {
        if constexpr (requires { words(entry, working); }) {
          return words(entry, working);
        } else {
          return words(entry);
        }
      },
      what);
}

std::string place_words(const WorkPlace& place, Working working) {
  const std::string row = fmt::format("{} {}", row_word(working), place.row);
  return place.stitch ? fmt::format("{}, stitch {}", row, *place.stitch) : row;
}

std::string_view inner_or_outer(BallEnd end) { return end == BallEnd::outside ? "outer" : "inner"; }

bool stands_at_least(const State& state) {
  return std::any_of(state.joins.begin(), state.joins.end(), [&](const JoinState& join) {
    return join.at_least && join.held == JoinHeld::in_work && join.place == state.at;
  });
}

std::string place_words(const JoinState& join, Working working) {
  return place_words(*join.place, working) + (join.at_least ? " or later" : "");
}

std::string rows_words(long count, Working working) {
  return fmt::format("{} {}{}", count, row_word(working), count == 1 ? "" : "s");
}

std::optional<int> reaches_only(const State& state) {
  if (!state.working || !state.used) return std::nullopt;
  const BallState& ball = state.balls[*state.working];
  if (!ball.length || ball.overdrawn <= kBallDoubt * *ball.length) return std::nullopt;
  const auto end = state.gauge.place(*state.used - ball.overdrawn);
  return end ? std::optional(end->row) : std::nullopt;
}

std::string short_words(const State& state, const stock::Stock& stock, Told told) {
  const Left left = left_by_scale(state, stock);
  if (!left.missing) return {};
  const Length missing = *left.missing;
  std::string text = fmt::format(
      "{} short", !stock::weighed(state) ? amount(missing, told) : amount(missing, told, *left.needed / 100));
  if (const auto row = state.gauge.row()) {
    const double rows = std::ceil(missing / (*row * stock.takes.share) - 1e-9);
    text += fmt::format(", about {}", rows_words(static_cast<long>(rows), state.fabric.working));
  }
  if (const auto& ball = state.yarn.ball_length) {
    const auto balls = static_cast<long>(std::ceil(missing / *ball - 1e-9));
    text += fmt::format(" or {} ball{}", balls, balls == 1 ? "" : "s");
  }
  return text;
}

std::string weighed_at_knot_line(const State& state, const Weighing& weighing, std::size_t columns) {
  const JoinState* join = counted_to_join(state);
  if (join == nullptr || !join->knot || join->old_ball != state.balls[weighing.ball].id) return {};
  const Working working = state.fabric.working;
  return labelled("Mind",
                  fmt::format("this counts as weighed with the work at the knot ({}). If the hook was still at {}: "
                              "cancel entry {}, record that {} and stitch (ballchange row), and weigh again.",
                              place_words(*state.at, working), place_words(*state.hook, working), weighing.entry,
                              row_word(working)),
                  columns);
}

std::string stands_line(const State& state, Told told, std::size_t columns) {
  if (!state.at) return {};
  const Working working = state.fabric.working;
  const JoinState* to_join = counted_to_join(state);
  // A row told without a stitch is finished; a join told so lies somewhere in it.
  const bool whole = state.at->stitch ? state.at->stitch == state.fabric.stitches : to_join == nullptr;
  const bool foundation = state.at->row == 1 && state.at->stitch == 0;
  const std::string place = foundation ? std::string("the foundation")
                            : whole    ? fmt::format("the end of {} {}", row_word(working), state.at->row)
                                       : place_words(*state.at, working);
  std::string stands = fmt::format("{} {}", to_join != nullptr ? "counted up to the join at" : "stands at", place);
  const bool least = stands_at_least(state);
  if (least) stands += " or later";
  if (state.used && *state.used > Length()) {
    stands += fmt::format("{} {}{} of yarn in it", to_join != nullptr ? ":" : ", with", least ? "at least " : "",
                          amount(*state.used, told));
  }
  return labelled("Work", stands + ".", columns);
}

std::string yarn_line(const LeftShown& left, Told told, std::size_t columns, bool enough) {
  const std::string on_ball = ball_words(left, told);
  const std::string on_all = all_words(left, told);
  const std::string yarn = on_ball + (on_ball.empty() || on_all.empty() ? "" : "; ") + on_all;
  if (yarn.empty()) return {};
  return labelled("Yarn", yarn + (enough ? enough_words(left, told) : std::string()) + ".", columns);
}

std::string work_lines(const LeftShown& left, Told told, std::size_t columns) {
  return stands_line(left.state, told, columns) + yarn_line(left, told, columns, true);
}

}  // namespace ballchange
