#include "show/entry_text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>
#include <vector>

#include "base/text.hpp"

namespace ballchange {
namespace {

std::string said(const std::string& text) { return printable(text); }

// As it was told, in its own unit.
std::string said(const Amount& amount) {
  return fmt::format("{} {}", std::round(amount.number * 1e4) / 1e4 + 0.0, unit_name(amount.unit));
}

std::string said(Mass mass) { return fmt::format("{} g", std::round(mass.g() * 1e4) / 1e4); }

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

std::string words(const did::Ball& ball) {
  Parts parts(fmt::format("ball {}", said(ball.ball)));
  if (ball.plain) parts.add("plain");
  parts.add("{}", ball.mass);
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

std::string words(const did::Row& row) {
  std::string text = place_words({row.row, row.stitch}) + (row.stitch ? "" : " finished");
  for (const std::string& seen : row.seen) text += fmt::format("; seen: {}", said(seen));
  return text;
}

std::string words(const did::Join& join) {
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
  if (join.row) parts.add("at " + place_words({*join.row, join.stitch}));
  return parts.take();
}

std::string words(const did::Weigh& weigh) {
  return fmt::format("ball {} weighs {}", said(weigh.ball), said(weigh.mass));
}

std::string words(const did::Rip& rip) {
  return rip.row == 0 ? std::string("ravelled back to the foundation")
                      : fmt::format("ravelled back to the end of row {}", rip.row);
}

std::string words(const did::Cancel& cancel) { return fmt::format("entry {} cancelled", cancel.entry); }

std::string words(const did::Gauge& gauge) {
  Parts parts("");
  parts.add("{} of yarn a stitch", gauge.yarn_per_stitch);
  parts.add("{} of yarn a turn", gauge.yarn_per_turn);
  if (gauge.stitches_in_10cm) parts.add(fmt::format("{:.4g} stitches in 10 cm", *gauge.stitches_in_10cm));
  if (gauge.rows_in_10cm) parts.add(fmt::format("{:.4g} rows in 10 cm", *gauge.rows_in_10cm));
  parts.add("size {}", gauge.size);
  return parts.take();
}

std::string words(const did::Swatch& swatch) {
  return fmt::format("swatch of {} from ball {}", said(swatch.length), said(swatch.ball));
}

std::string words(const did::Note& note) { return said(note.text); }

std::string rows(double count) {
  const auto whole = static_cast<long>(std::floor(count + 1e-9));
  return fmt::format("about {} row{}", whole, whole == 1 ? "" : "s");
}

// "78.8 m left on ball A, about 70 rows"
std::string ball_words(const State& state, Told told) {
  if (!state.working) return {};
  const BallState& ball = state.balls[*state.working];
  if (!ball.left || ball.plain) return {};
  std::string text = fmt::format("{} left on ball {}", amount(*ball.left, told), said(ball.id));
  if (const auto row = state.gauge.row()) text += fmt::format(", {}", rows(*ball.left / *row));
  return text;
}

std::string all_words(const State& state, Told told) {
  std::size_t balls = 0;
  for (const BallState& ball : state.balls) balls += ball.plain ? 0U : 1U;
  if (!state.left.length || balls < 2) return {};
  const std::string which = balls == 2 ? "both" : fmt::format("all {}", balls);
  std::string text = fmt::format("{} on {} balls", amount(*state.left.length, told), which);
  if (state.left.rows) text += fmt::format(", {}", rows(*state.left.rows));
  return text;
}

}  // namespace

std::string entry_words(const Did& what) {
  return std::visit([](const auto& entry) { return words(entry); }, what);
}

std::string place_words(const WorkPlace& place) {
  if (!place.stitch) return fmt::format("row {}", place.row);
  return fmt::format("row {}, stitch {}", place.row, *place.stitch);
}

std::string work_lines(const State& state, Told told, std::size_t columns) {
  std::string text;
  if (state.at) {
    const bool whole = state.at->stitch && state.at->stitch == state.fabric.stitches;
    std::string stands =
        whole ? fmt::format("stands at the end of row {}", state.at->row) : "stands at " + place_words(*state.at);
    if (state.used && *state.used > Length())
      stands += fmt::format(", with {} of yarn in it", amount(*state.used, told));
    text += labelled("Work", stands + ".", columns);
  }
  const std::string on_ball = ball_words(state, told);
  const std::string on_all = all_words(state, told);
  std::string yarn = on_ball + (on_ball.empty() || on_all.empty() ? "" : "; ") + on_all;
  if (!yarn.empty() && state.left.enough) {
    yarn += *state.left.enough ? ". Enough for the rows planned" : ". Not enough yet for the rows planned";
  }
  if (!yarn.empty()) text += labelled("Yarn", yarn + ".", columns);
  return text;
}

}  // namespace ballchange
