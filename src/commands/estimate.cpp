#include "commands/estimate.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <system_error>
#include <thread>

#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"
#include "console/common.hpp"
#include "console/join_options.hpp"
#include "console/progress.hpp"
#include "join/choice.hpp"
#include "project/advise_project.hpp"
#include "project/balls.hpp"
#include "project/project.hpp"
#include "project/two_ends.hpp"
#include "show/estimate.hpp"
#include "stock/on_balls.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 7> kRows{{
    {"yarn", "PROFILE", "the yarn, where there is no project"},
    {"needed", "L", "yarn in the finished work"},
    {"swatch", "L", "yarn for swatches, besides", true},
    {"knots", "X", "knots inside a ball, on average (0)"},
    {"ball-plus-minus", "P", "how much one ball holds against another (2%)"},
    {"other-hands", "P", "how much other people's yarn per stitch varies (5%)"},
    {"seed", "N", "of what is simulated (1)"},
}};
constexpr OptionGroup kGroup{"What is to be made", kRows};

struct Case : BallsTold {  // the balls on hand
  std::optional<Length> needed;
  bool begun = false;                   // some of the work is done
  std::optional<double> by_scale = {};  // yarn that rows take by the scale, as a share of what the gauge says
};

// The whole work as rows turn out by the scale, once it tells; swatches took what they took.
void count_by_scale(Case& given, const State& state) {
  if (!given.needed || !stock::weighed(state)) return;
  const stock::Stock stock = stock::stock_of(state, stock::doubts_of(state));
  if (!stock.measured) return;
  const Length swatches = state.totals.by_cause.swatches;
  given.needed = swatches + stock.takes.share * (*given.needed - swatches);
  given.by_scale = stock.takes.share;
}

Case from_profile(const Options& options, const Context& context, const Common& common) {
  if (!options.has("yarn") || !options.has("needed")) {
    throw Problem(
        Fault::content,
        "estimate needs a project, or a yarn and how much of it the work takes: --yarn PROFILE --needed 800m");
  }
  return {told_without_project(options, context, common), std::nullopt, false};
}

Case from_project(const Options& options, const Context& context) {
  if (options.has("yarn")) {
    throw Problem(Fault::content, "--yarn is for an estimate without a project; this project has its yarn");
  }
  const OpenProject open = open_project(options, context);
  Case given{told_by(open, options), open.state.planned, open.state.begun || open.state.at};
  const Fabric& recorded = open.state.fabric;
  if (given.needed && recorded.yarn_per_stitch && given.fabric.yarn_per_stitch) {
    // Rows by another yarn per stitch than the project's.
    const Length more = *given.fabric.yarn_per_stitch - *recorded.yarn_per_stitch;
    *given.needed += more * (open.project.piece.rows.value_or(0) * recorded.stitches.value_or(0));
  }
  // Another yarn per stitch than the project's isn't what was weighed.
  if (given.fabric.yarn_per_stitch == recorded.yarn_per_stitch) count_by_scale(given, open.state);
  for (const BallState& ball : open.state.balls) {
    if (ball.plain || ball.offcut) continue;
    // The whole work counts, so that a ball in it already counts as it was before.
    const BallState then = before_its_use(open.project, open.state, ball);
    given.balls.push_back(recorded_ends(then, options, given.yarn, given.written, context));
    // By its band alone a ball holds what any other does.
    given.balls.back().yarn = ball.mass ? ball.length : std::nullopt;
  }
  if (!given.needed && !options.has("needed")) {
    throw Problem(Fault::content,
                  fmt::format("{}: how much yarn the work takes isn't known: it follows from `rows`, `stitches` and "
                              "`yarn_per_stitch` under `piece`; or tell it with --needed 800m",
                              printable(open.path, 60)));
  }
  return given;
}

double number_option(const Options& options, std::string_view name, double otherwise, double most) {
  const auto text = options.text(name);
  if (!text) return otherwise;
  const std::string what = fmt::format("--{}", name);
  const std::string wanted = fmt::format("a number from 0 to {}", most);
  const auto parts = parse_quantities(*text, wanted, what);
  if (parts.size() != 1 || !parts.front().unit.empty() || parts.front().number > most) {
    throw Problem(Fault::content, fmt::format("{}: '{}' should be {}", what, printable(*text, 40), wanted));
  }
  return parts.front().number;
}

double share_option(const Options& options, std::string_view name, double otherwise, double most) {
  const auto text = options.text(name);
  if (!text) return otherwise;
  const std::string range = fmt::format("0 % to {:.0f} %, like 2 %", most * 100);
  const std::string what = fmt::format("--{}", name);
  const double share = parse_share(*text, what, range);
  if (share > most)
    throw Problem(Fault::content, fmt::format("{}: '{}' should be {}", what, printable(*text, 40), range));
  return share;
}

std::uint64_t seed_option(const Options& options) {
  const auto text = options.text("seed");
  if (!text) return 1;
  std::uint64_t seed = 0;
  const char* end = text->data() + text->size();
  const auto read = std::from_chars(text->data(), end, seed);
  if (read.ec != std::errc() || read.ptr != end) {
    throw Problem(Fault::content, fmt::format("--seed: '{}' should be a whole number, like 1", printable(*text, 40)));
  }
  return seed;
}

// Ends that do not settle count as not read: the estimate is of chances anyway.
plan::OnHand on_hand(const Case& given, const TwoEnds& ends) {
  std::vector<OpenEnd> open;
  PlacedBall placed = placed_ball(ends, given.yarn, given.written, given.match, open);
  if (!open.empty()) return {ends.yarn, std::nullopt, std::nullopt};
  if (placed.direction == Direction::backward) placed.start.swap(placed.finish);
  return {ends.yarn, placed.start, placed.finish};
}

// "1100", in a pattern metres, here centimetres.
bool is_bare(const Options& options) {
  const auto text = options.text("needed");
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  return text && std::none_of(text->begin(), text->end(), letter);
}

plan::Work work_of(const Case& given, const Options& options, Method& method) {
  refuse_wide_tolerance(given.wish, given.yarn.repeat, given.measures.told);
  const joining::Terms terms =
      joining::terms_in_force(given.wish, given.fabric, given.yarn.reckoning, given.yarn.felts);
  method = terms.method;
  if (!given.yarn.ball_length) {
    const bool profile = options.words().empty() && options.has("yarn");
    throw Problem(Fault::content,
                  fmt::format("how much a ball holds isn't known; write it into {}, as its ball band tells it: "
                              "ball: {{mass: 50 g, length: {}}}",
                              profile ? fmt::format("the profile {}", printable(*options.text("yarn"), 60))
                                      : std::string("the project file, under yarn"),
                              given.yarn.reckoning == Reckoning::stitches ? "6000 st" : "125 m"));
  }
  plan::Work work;
  work.needed = length_option(options, "needed", given.measures.ruler).value_or(given.needed.value_or(Length()));
  for (const std::string& swatch : options.texts("swatch")) {
    work.needed += parse_length(swatch, given.measures.ruler, "--swatch");
  }
  if (work.needed <= Length())
    throw Problem(Fault::content, "--needed: nothing needs no yarn; tell how much, like 800m");
  work.period = shortest_period(given.yarn.repeat);
  work.allowance = terms.allowance;
  work.tolerance = terms.tolerance;
  work.sparing = given.wish.sparing;
  work.keep_from_start = given.wish.from_the_start;
  work.mirror = mirror_axis(given.yarn.repeat);
  work.ball = *given.yarn.ball_length;
  work.ball_plus_minus = share_option(options, "ball-plus-minus", 0.02, 0.15);
  work.knots = number_option(options, "knots", 0, 5);
  for (const TwoEnds& ends : given.balls) work.on_hand.push_back(on_hand(given, ends));
  return work;
}

struct Simulated {
  std::vector<plan::WayEstimate> ways;
  plan::WayEstimate other_hands;
  std::optional<int> balls_with_more;  // where the gauge told the yarn needed, and may be off
};

Simulated simulated(const plan::Work& work, const plan::Work& elsewhere, bool by_gauge, plan::Simulation simulation,
                    const Context& context) {
  Progress progress(context, by_gauge ? 5 : 4);
  Simulated all;
  // The quick ones first: what is too much is then refused at once.
  simulation.progress = progress.part();
  all.other_hands = plan::estimate(elsewhere, plan::Way::as_they_come, simulation);
  if (by_gauge) {
    plan::Work looser = work;
    looser.needed = work.needed * (1 + EstimateShown::kMoreYarn);
    simulation.progress = progress.part();
    all.balls_with_more = plan::estimate(looser, plan::Way::as_they_come, simulation).balls.p95;
  }
  for (const plan::Way way : {plan::Way::as_they_come, plan::Way::best_of_hand, plan::Way::ends_read}) {
    simulation.progress = progress.part();
    all.ways.push_back(plan::estimate(work, way, simulation));
  }
  progress.end();
  return all;
}

}  // namespace

std::vector<OptionGroup> estimate_options() { return {kGroup, joining_options(), reading_options(), common_options()}; }

Outcome run_estimate(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const bool without_project = options.words().empty() && options.has("yarn");
  const Case given = without_project ? from_profile(options, context, common) : from_project(options, context);
  Method method = Method::threaded;
  const plan::Work work = work_of(given, options, method);
  plan::Work elsewhere = work;
  elsewhere.needed_plus_minus = share_option(options, "other-hands", 0.05, 0.5);
  elsewhere.on_hand.clear();
  const bool by_gauge = given.needed && !options.has("needed");
  const plan::Simulation simulation{
      seed_option(options), std::clamp(std::thread::hardware_concurrency(), 1U, 8U), {}, 0};
  const Simulated all = simulated(work, elsewhere, by_gauge, simulation, context);
  const auto read = std::count_if(work.on_hand.begin(), work.on_hand.end(),
                                  [](const plan::OnHand& ball) { return ball.start || ball.finish; });
  const auto half = std::count_if(work.on_hand.begin(), work.on_hand.end(), [](const plan::OnHand& ball) {
    return ball.start.has_value() != ball.finish.has_value();
  });
  const EstimateShown shown{given.yarn,
                            work,
                            all.ways,
                            all.other_hands,
                            elsewhere.needed_plus_minus,
                            simulation.seed,
                            method,
                            static_cast<std::size_t>(read),
                            static_cast<std::size_t>(half),
                            common.verbose,
                            all.balls_with_more,
                            is_bare(options) && work.needed < work.ball,
                            given.begun,
                            by_gauge ? given.by_scale : std::nullopt};
  answer(context, common,
         common.format == Format::json ? estimate_json(shown)
                                       : estimate_screen(shown, common.screen, given.measures.told));
  return Outcome::done;
}

}  // namespace ballchange
