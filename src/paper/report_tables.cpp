#include "paper/report_tables.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/text.hpp"
#include "ledger/shifts.hpp"
#include "paper/drawing.hpp"
#include "paper/lettering.hpp"
#include "paper/repeat.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr Sheet kRepeat{150, 200};
constexpr const char* kNone = "\u2013";

std::string ball_or_unknown(const std::string& id) {
  return id.empty() ? std::string("a ball not recorded") : "ball " + printable(id, 60);
}

std::string gauge_words(const State& state) {
  const std::string_view row = row_word(state.fabric.working);
  std::vector<std::string> parts;
  const auto add = [&](const std::optional<double>& count, std::string_view what) {
    if (count) parts.push_back(fmt::format("{:.4g} {}", *count, what));
  };
  add(state.stitches_in_10cm, "stitches");
  add(state.rows_in_10cm, std::string(row) + "s");
  std::string text = parts.empty() ? "" : and_list(parts) + " in 10 cm";
  parts.clear();
  add(state.washed_stitches_in_10cm, "stitches");
  add(state.washed_rows_in_10cm, std::string(row) + "s");
  if (!parts.empty()) text += (text.empty() ? "" : "; ") + and_list(parts) + " in 10 cm once washed";
  return text;
}

std::string yarn_words(const Yarn& yarn, Told told) {
  std::string text = printable(yarn.name);
  if (!yarn.fibre.empty()) text += ", " + printable(yarn.fibre, 80);
  if (yarn.ball_mass) text += fmt::format(", {:.4g} g", yarn.ball_mass->g());
  if (yarn.ball_length) text += fmt::format("{} {}", yarn.ball_mass ? " =" : ",", amount(*yarn.ball_length, told));
  return text + (yarn.felts ? ", felts" : ", doesn't felt");
}

std::string takes_words(const Project& project, const State& state, Told told) {
  std::string text = stitch_amount(*state.fabric.yarn_per_stitch, told) + " a stitch";
  if (state.fabric.yarn_per_turn > Length()) text += ", " + stitch_amount(state.fabric.yarn_per_turn, told) + " a turn";
  const auto& made = project.piece.foundation;
  if (!made) return text;
  return text +
         fmt::format("; {} the foundation", amount(to_length({made->number, made->unit}, state.ruler, ""), told));
}

// As it was written down, finer than a tape shows.
std::string plus_minus_words(Length plus_minus, Told told) {
  if (told == Told::inches) return tape(plus_minus, told);
  const std::string number = plain_number(plus_minus.cm(), 1);
  if (told == Told::centimetres) return number + " cm";
  return number + (number == "1" ? " stitch" : " stitches");
}

std::string shift_said(const JoinState& join, const Repeat& repeat, Told told) {
  if (!join.shift) return "not known how far.";
  std::string text = shift_words(*shift_told(join, repeat), told);
  if (join.seen) {
    text += fmt::format(", {} in the work (entry {})",
                        bears_out(join, repeat) ? "as recorded; counted so" : "as counted", join.seen->entry);
  }
  return text + ".";
}

// Why it came to that cut.
std::string why(const ReportJoin& shown, const Repeat& repeat, Told told) {
  const JoinState& join = shown.join;
  if (join.knot_left) return "the colours run on through the knot, so it was left.";
  const Length cut = join.trim_old + join.trim_new;
  std::string text = shown.ends;
  const std::string taken = join.allowance ? fmt::format("the join took {}", tape(*join.allowance, told)) : "";
  const auto shift = shift_told(join, repeat);
  const bool in_step = shift && is_nothing(*shift, told);
  if (!text.empty()) text += " ";
  if (is_nothing(cut, told)) {
    text += "Nothing was cut off";
  } else {
    text += fmt::format("{} was cut off{}", tape(cut, told), in_step ? " so that the colours run on" : "");
  }
  return text + (taken.empty() ? "." : "; " + taken + ".");
}

}  // namespace

std::string next_lines(const StockShown& stock, Told told) {
  const State& state = stock.state;
  if (!state.working || state.balls[*state.working].plain) return {};
  return stock_lines(stock, told, HtmlPage::kUnwrapped);
}

std::string all_worked(const Project& project, const State& state) {
  if (!project.piece.rows || !state.at) return {};
  const int done = !state.at->stitch || state.at->stitch == state.fabric.stitches ? state.at->row : state.at->row - 1;
  if (done < *project.piece.rows) return {};
  const std::string planned = rows_words(*project.piece.rows, state.fabric.working);
  const int more = done - *project.piece.rows;
  if (more == 0) {
    return fmt::format("All {} planned are worked{}.", planned,
                       project.piece.edging ? "; an edging is planned too" : "");
  }
  return fmt::format("All {} planned are worked, and {} more.", planned, rows_words(more, state.fabric.working));
}

std::vector<ReportFact> piece_facts(const Project& project, const State& state, Told told) {
  std::vector<ReportFact> facts;
  const auto add = [&](std::string_view label, std::string words) {
    if (!words.empty()) facts.push_back({std::string(label), std::move(words)});
  };
  const Working working = state.fabric.working;
  const std::string rows = std::string(row_word(working)) + "s";
  add("Yarn", yarn_words(state.yarn, told));
  add("Worked", working == Working::turned_rounds ? "in rounds that are turned" : "in " + rows);
  if (state.fabric.stitches) add("Stitches", fmt::format("{} a {}", *state.fabric.stitches, row_word(working)));
  if (project.piece.rows) add(capital(rows), fmt::format("{} planned", *project.piece.rows));
  if (state.at) {
    add("Stands at", place_words(*state.at, working) + (stands_at_least(state) ? " or later" : ""));
  }
  add("Size", size_words(state, told));
  add("Gauge", gauge_words(state));
  if (state.fabric.yarn_per_stitch && told != Told::stitches) add("Takes", takes_words(project, state, told));
  if (state.size) add("Hook or needles", printable(*state.size, 80));
  return facts;
}

PageTable repeat_table(const Yarn& yarn, Told told) {
  const Repeat& repeat = yarn.repeat;
  const std::vector<Ink> letters = inks(repeat.colours());
  PageTable table{fmt::format("{} sections, {} in all", repeat.size(), tape(repeat.total(), told)),
                  {"Colour", "Length", "Plus-minus", "Begins at"},
                  {}};
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const Section& section = repeat.sections()[k];
    table.rows.push_back({fmt::format("{} ({})", printable(repeat.name_of(k), 60), letters[section.colour].letter),
                          section_length(section.length, told), plus_minus_words(section.plus_minus, told),
                          section_length(repeat.start(k), told)});
  }
  return table;
}

std::string repeat_bar(const Yarn& yarn, Told told) {
  const RepeatScene scene = repeat_scene(yarn.repeat, {}, nullptr);
  const RepeatOnPaper words = repeat_words(yarn, scene, nullptr, told);
  Drawing drawing("repeat", words.title, words.description);
  const Sheet sheet = draw_repeat_bar(drawing, scene, words, 1, 1, kRepeat);
  return drawing.inline_svg({sheet.width + 2, sheet.height + 2},
                            scene.parts.size() > kNamedBeside ? kTableLetters : kLetters);
}

PageTable ball_table(const LeftShown& left, Told told) {
  PageTable table{{}, {"Ball", "Dye lot", "Weighed", "Now", "Left"}, {}};
  for (const BallState& ball : left.state.balls) {
    std::string name = printable(ball.id, 60);
    if (ball.plain) name += ", plain";
    const bool used_up = ball.use == BallUse::used_up;
    table.rows.push_back({std::move(name), ball.dye_lot ? printable(*ball.dye_lot, 60) : kNone,
                          ball.mass ? fmt::format("{:.4g} g", ball.mass->g()) : kNone, std::string(use_words(ball.use)),
                          used_up || !ball.left ? kNone : left_on_ball(left, ball, told)});
  }
  return table;
}

std::string join_title(const ReportJoin& shown, Working working) {
  const JoinState& join = shown.join;
  std::string text = join.knot ? "Knot in " + ball_or_unknown(join.new_ball)
                               : capital(ball_or_unknown(join.old_ball)) + " to " + ball_or_unknown(join.new_ball);
  if (join.place) text += ", " + place_words(join, working);
  return text;
}

std::vector<ReportFact> join_facts(const ReportJoin& shown, const State& state, Unit units, Told told) {
  const JoinState& join = shown.join;
  std::vector<ReportFact> facts;
  facts.push_back(
      {"Recorded", fmt::format("entry {}: {}.", join.entry, entry_words(shown.entry.what, state.fabric.working))});
  facts.push_back({"Why", why(shown, state.yarn.repeat, told)});
  if (!join.knot_left || join.shift) facts.push_back({"Colours", shift_said(join, state.yarn.repeat, told)});
  const auto& entry = std::get<did::Join>(shown.entry.what);
  // As they were written down, which may be in another unit than the page's.
  const bool other_unit = (told == Told::inches) != (units == Unit::in) && told != Told::stitches;
  const std::string in_unit = other_unit ? fmt::format(" ({})", unit_name(units)) : std::string();
  if (entry.old_reading) facts.push_back({"Old end", printable(*entry.old_reading, 1000) + in_unit});
  if (entry.new_reading) facts.push_back({"New end", printable(*entry.new_reading, 1000) + in_unit});
  const auto is_plain = [&](const std::string& ball) {
    const BallState* of = state.find_ball(ball);
    return of != nullptr && of->plain;
  };
  if (shown.picture.empty() && !is_plain(join.old_ball) && !is_plain(join.new_ball)) {
    facts.push_back({"Picture", !entry.old_reading && !entry.new_reading
                                    ? "none: what was read of the ends is not on record."
                                : !entry.old_reading ? "none: what was read of the old end is not on record."
                                : !entry.new_reading ? "none: what was read of the new end is not on record."
                                : shown.ends.empty() ? "none: where both ends lay is not certain."
                                                     : "none: more sections than can be told apart."});
  }
  if (join.held == JoinHeld::ahead) facts.push_back({"Now", "made, and not worked yet."});
  if (join.held == JoinHeld::apart) facts.push_back({"Now", "ravelled, and came apart."});
  if (join.held == JoinHeld::cut_out) facts.push_back({"Now", "cut out again."});
  return facts;
}

PageTable waste_table(const Totals& totals, Told told) {
  PageTable table{"By cause", {"For", "Yarn"}, {}};
  for (const WasteCause& cause : waste_causes(totals, told)) {
    table.rows.push_back({std::string(cause.words), amount(cause.length, told)});
  }
  table.rows.push_back({"all together", amount(totals.waste, told)});
  return table;
}

}  // namespace ballchange
