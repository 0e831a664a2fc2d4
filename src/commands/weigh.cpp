#include "commands/weigh.hpp"

#include <fmt/core.h>

#include <array>

#include "base/number.hpp"
#include "base/text.hpp"
#include "console/join_options.hpp"
#include "ledger/worked.hpp"
#include "project/advise_project.hpp"
#include "project/balls.hpp"
#include "project/record.hpp"
#include "project/stock.hpp"
#include "show/entry_text.hpp"
#include "stock/scale.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 4> kRows{{
    {"ball", "ID", "the ball on the scale (left out: the one in work)"},
    {"mass", "G", "what the scale says, like 31g"},
    {"scale", "G", "the step the scale shows, like 0.1g (left out: as masses are written)"},
    {"needed", "L", "yarn that a plain ball is still to give"},
}};
constexpr OptionGroup kGroup{"The scale", kRows};

// No whole ball is so much heavier than its band says; one in a bowl is.
constexpr double kHeavier = 1.1;

// What people have: letter scales to luggage scales. Common practice, no source.
constexpr Mass kFinest = Mass::g(0.01), kCoarsest = Mass::g(100);

Mass weighed_mass(const Options& options) {
  const std::string text = *options.text("mass");
  // As `ballchange` alone tells it.
  if (text == "G") refuse("--mass: write what the scale shows in place of G, like 31g");
  const Mass mass = parse_mass(text, "--mass");
  if (mass <= Mass()) refuse("--mass: a ball weighs more than nothing");
  if (mass < kFinest) refuse("--mass: no scale at home shows so little; write grams, like 31g");
  return mass;
}

Mass scale_step_told(const Options& options) {
  const Mass step = parse_mass(*options.text("scale"), "--scale");
  if (step < kFinest || step > kCoarsest) refuse("--scale: the step of a scale is from 0.01 g to 100 g, like 0.1g");
  return step;
}

std::string grams(Mass mass) { return fmt::format("{} g", plain_number(mass.g(), 2)); }

const BallState& ball_weighed(const State& state, const Options& options) {
  if (const auto id = options.text("ball")) return ball_named(state, *id);
  if (!state.working) refuse("no ball is in the work yet: tell which one was weighed with --ball A");
  return state.balls[*state.working];
}

// An offcut can't weigh more than its length does by the band.
void refuse_heavier_offcut(const State& state, const BallState& ball, const did::Weigh& weigh) {
  const Yarn& yarn = state.yarn;
  if (!ball.offcut || !ball.length || !yarn.ball_mass || !yarn.ball_length) return;
  const Mass whole = *yarn.ball_mass * (*ball.length / *yarn.ball_length);
  const Mass step = weigh.scale.value_or(stock::scale_step(state));
  if (weigh.mass.g() <= kHeavier * whole.g() + step.g()) return;
  refuse(
      fmt::format("--mass: ball {} is an offcut and weighs about {} by the band; name the ball that was weighed with "
                  "--ball",
                  printable(ball.id, 60), grams(whole)));
}

did::Weigh weigh_of(const Options& options, const Project& project, const State& state) {
  // What only the answer needs is refused before anything is recorded.
  const ProjectTerms terms = terms_of(options, project, state);
  (void)length_option(options, "needed", terms.measures.ruler);
  const BallState& ball = ball_weighed(state, options);
  did::Weigh weigh{ball.id, weighed_mass(options), step_typed(*options.text("mass"))};
  if (options.has("scale")) weigh.scale = scale_step_told(options);
  if (options.has("needed") && !ball.plain) {
    refuse(fmt::format("--needed is for a plain ball; what ball {} is still to give follows from the rows planned",
                       printable(ball.id, 60)));
  }
  refuse_heavier_offcut(state, ball, weigh);
  return weigh;
}

// Whole balls are no heavier than their band says, but for damp and bowls.
std::optional<std::string> too_heavy(const State& state, const BallState& ball, Mass mass) {
  const auto& band = state.yarn.ball_mass;
  if (ball.plain || ball.mass || !band || mass.g() <= kHeavier * band->g()) return std::nullopt;
  return fmt::format("{} is more than the {} on the band: was a bowl weighed with it?", grams(mass), grams(*band));
}

std::optional<ByWeightShown::Enough> plain_enough(const Options& options, const Project& project, const State& state,
                                                  const stock::ByWeight& yarn) {
  const Ruler ruler = measures_of(options, project, state).ruler;
  if (const auto needed = length_option(options, "needed", ruler)) {
    if (!yarn.left) return std::nullopt;
    return ByWeightShown::Enough{PlainUse::told, *needed, 0, stock::chance_for(yarn, *needed)};
  }
  const int rows = project.piece.rows.value_or(0) - rows_done(state.at, state.fabric);
  if (yarn.per_row && rows > 0) {
    return ByWeightShown::Enough{PlainUse::rows_to_come, {}, rows, stock::chance_for_rows(yarn, rows)};
  }
  const auto& edging = project.piece.edging;
  if (!yarn.left || !edging || edging->number <= 0) return std::nullopt;
  const Length length = to_length({edging->number, edging->unit}, ruler, "edging");
  return ByWeightShown::Enough{PlainUse::edging, length, 0, stock::chance_for(yarn, length)};
}

void tell_plain(Recorded& recorded, std::size_t ball, const stock::Doubts& doubts, const std::string& path,
                const Options& options, const Context& context, const Common& common) {
  const State& state = recorded.after;
  const stock::ByWeight yarn = stock::by_weight(state, ball, doubts);
  ByWeightShown shown{state, yarn, state.balls[ball].id, path};
  shown.enough = plain_enough(options, recorded.project, state, yarn);
  const Told told = measures_of(options, recorded.project, state).told;
  // What the fold remarks of an unknown length is said better here.
  if (!yarn.left) recorded.remarks.clear();
  const MoreTold more{[&](Json& json) {
                        json.key("stock").object();
                        by_weight_members(json, shown);
                        json.end();
                      },
                      true};
  tell_recorded(recorded, by_weight_lines(shown, told, common.screen.text_columns()), options, context, common, more);
}

void tell_dyed(const Recorded& recorded, std::size_t ball, const stock::Doubts& doubts, const std::string& path,
               const Options& options, const Context& context, const Common& common) {
  const State& state = recorded.after;
  const stock::Stock stock = stock::stock_of(state, doubts);
  const StockShown shown = stock_of_ball(recorded.project, state, stock, path, options, context);
  const Told told = measures_of(options, recorded.project, state).told;
  const std::size_t columns = common.screen.text_columns();
  if (stock::counted_by_weight(state, stock, ball)) {
    const stock::ByWeight yarn = stock::by_weight(state, ball, doubts);
    const ByWeightShown alone{state, yarn, state.balls[ball].id, path};
    const MoreTold more{[&](Json& json) {
                          json.key("stock").object();
                          by_weight_members(json, alone);
                          json.end();
                        },
                        true};
    return tell_recorded(recorded, by_weight_lines(alone, told, columns), options, context, common, more);
  }
  const std::string lines =
      (state.working == ball ? stock_lines(shown, told, columns) : other_ball_lines(shown, ball, told, columns)) +
      enough_lines(shown, told, columns) +
      (state.weighings.empty() ? std::string() : weighed_at_knot_line(state, state.weighings.back(), columns));
  const MoreTold more{[&](Json& json) {
                        json.key("stock").object();
                        stock_members(json, shown, ball);
                        json.end();
                      },
                      shown.stock.balls[ball].has_value()};
  tell_recorded(recorded, lines, options, context, common, more);
}

}  // namespace

std::vector<OptionGroup> weigh_options() {
  return {kGroup, joining_options(), reading_options(), writing_options(), common_options()};
}

Outcome run_weigh(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  if (!options.has("mass")) refuse("weigh needs what the scale says: --mass 31g");
  const std::string path = project_path(options, context);
  Recorded recorded = record(path, options, context, [&](const Project& project, const State& state) {
    return std::vector<Did>{weigh_of(options, project, state)};
  });
  const auto& weigh = std::get<did::Weigh>(recorded.entries().back().what);
  const auto& balls = recorded.after.balls;
  const auto ball = static_cast<std::size_t>(recorded.after.find_ball(weigh.ball) - balls.data());
  if (auto heavy = too_heavy(recorded.after, balls[ball], weigh.mass)) recorded.remarks.push_back(std::move(*heavy));
  const stock::Doubts doubts = stock::doubts_of(recorded.after);
  if (balls[ball].plain) {
    tell_plain(recorded, ball, doubts, path, options, context, common);
  } else {
    tell_dyed(recorded, ball, doubts, path, options, context, common);
  }
  return Outcome::done;
}

}  // namespace ballchange
