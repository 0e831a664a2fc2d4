#include "commands/gauge_swatch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"
#include "commands/gauge_fall.hpp"
#include "commands/swatches_told.hpp"
#include "console/join_options.hpp"
#include "console/yarn_per_stitch.hpp"
#include "fabric/tool_size.hpp"
#include "ledger/fold.hpp"
#include "project/record.hpp"
#include "show/swatch.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 6> kRows{{
    {"swatch", "TEXT", "one swatch: \"4 mm, 33 st over 15 cm, 24 rows over 14.5 cm, 20 st take 41 cm\"", true},
    {"want", "GAUGE", "the gauge wanted, as \"22 st 18 rows\": which size to try next"},
    {"tool", "hook|needle", "what a letter or number is a size of (hook)"},
    {"turning-chain", "counts|apart", "whether it counts as a stitch of its row"},
    {"yarn-class", "CLASS", "the yarn's class, as light or 3: is the gauge usual for it"},
    {"record", "", "record the gauge in the project, and yarn the swatches used"},
}};
constexpr OptionGroup kGroup{"Swatches (nothing is recorded without --record)", kRows};

void refuse_what_goes_apart(const Options& options) {
  for (const std::string_view name : {"want", "tool", "turning-chain", "yarn-class", "record"}) {
    if (options.has(name) && !options.has("swatch")) {
      refuse(fmt::format("--{} goes with a swatch: --swatch \"4 mm, 33 st over 15 cm\"", name));
    }
  }
  for (const std::string_view name : {"widths", "look", "height", "rows", "first", "foundation", "new"}) {
    if (options.has(name)) {
      refuse(fmt::format("--{} asks how the colours fall, which is asked apart from --swatch; leave one of them out",
                         name));
    }
  }
  for (const std::string_view name : {"yarn-per-stitch", "stitches-in-10cm", "rows-in-10cm"}) {
    if (!options.has(name)) continue;
    refuse(fmt::format("--{} is what a swatch tells; leave it out, or write what was measured into --swatch: {}", name,
                       name == "yarn-per-stitch"    ? "20 st take 41 cm"
                       : name == "stitches-in-10cm" ? "33 st over 15 cm"
                                                    : "24 rows over 14.5 cm"));
  }
  for (const std::string_view name : {"dry-run", "at", "washed-stitches-in-10cm", "washed-rows-in-10cm"}) {
    if (options.has(name) && !options.has("record")) {
      refuse(fmt::format("--{} is for recording: give --record too, or leave it out", name));
    }
  }
  if (options.has("record") && options.has("yarn")) {
    refuse("--record writes into a project, which holds its own yarn: leave out --yarn");
  }
  if (!options.words().empty()) refuse_other_yarn(options);
}

void take_project(const Options& options, const Context& context, SwatchKnown& known) {
  const bool asked = !options.words().empty() || options.has("record");
  if (!asked && (options.has("yarn") || project_files(context).size() != 1)) return;
  known.project = open_project(options, context);
  const State& state = known.project->state;
  known.yarn = state.yarn;
  known.stitches = state.fabric.stitches;
  known.working = state.fabric.working;
  known.terms.pattern = known.project->project.piece.multiple.value_or(Multiple());
  if (state.fabric.yarn_per_turn > Length()) known.turn = state.fabric.yarn_per_turn;
  known.usual_size = state.size.value_or("");
}

SwatchKnown known_of(const Options& options, const Context& context, const Common& common) {
  SwatchKnown known;
  take_project(options, context, known);
  if (options.has("yarn")) known.yarn = yarn_of(options, context);
  const bool inches =
      common.inches || (known.project && known.project->project.units == Unit::in && !options.has("units"));
  known.terms.bare = inches ? Unit::in : Unit::cm;
  known.told = inches ? Told::inches : Told::centimetres;
  known.terms.tool = choice(options, "tool", Tool::hook, {{"hook", Tool::hook}, {"needle", Tool::needle}});
  if (const auto told = multiple_option(options)) known.terms.pattern = *told;
  if (options.has("worked")) known.working = worked_option(options);
  if (const auto told = count_option(options, "stitches", 1)) known.stitches = told;
  const Ruler ruler{known.terms.bare, {}, false};
  if (const auto told = length_option(options, "yarn-per-turn", ruler)) known.turn = told;
  if (const auto told = options.text("size")) known.usual_size = *told;
  known.chain = choice(options, "turning-chain", TurningChain::not_told,
                       {{"counts", TurningChain::counts}, {"apart", TurningChain::apart}});
  return known;
}

TurnShown turn_of(const SwatchKnown& known, const SwatchesTold& gathered) {
  TurnShown turn{known.chain, known.stitches, known.turn, {}, gathered.turn_guessed};
  if (known.chain == TurningChain::counts) turn.yarn = Length();
  if (gathered.turns.empty()) return turn;
  Length sum;
  double squares = 0;
  for (const TurnMeasured& one : gathered.turns) {
    sum += one.yarn;
    squares += one.doubt.cm() * one.doubt.cm();
  }
  const auto n = static_cast<double>(gathered.turns.size());
  turn.yarn = sum / n;
  if (squares > 0) turn.doubt = Length::cm(std::sqrt(squares) / n);
  return turn;
}

// The size the work is made with: told, or the only one, or the one that gives what is wanted.
std::optional<std::size_t> told_in_hand(const Options& options, const SwatchShown& shown) {
  const auto at = [&](double mm) -> std::optional<std::size_t> {
    for (std::size_t k = 0; k < shown.gauges.size(); ++k) {
      if (shown.gauges[k].mm == mm) return k;
    }
    return std::nullopt;
  };
  if (const auto text = options.text("size")) {
    const auto size = tool_size(*text, shown.tool);
    const auto found = size ? at(size->mm) : std::nullopt;
    if (!found)
      refuse(fmt::format("--size: no swatch was made with {}; tell one of those swatched", printable(*text, 40)));
    return found;
  }
  if (shown.gauges.size() == 1) return 0;
  if (shown.next && shown.next->reach == Reach::keep) return at(shown.next->best->size.mm);
  return std::nullopt;
}

// Otherwise the one that is known least.
std::size_t least_known(const std::vector<SizeGauge>& gauges) {
  const auto share = [](const SizeGauge& gauge) { return gauge.stitch ? gauge.stitch->share : 0; };
  const auto least = std::max_element(gauges.begin(), gauges.end(),
                                      [&](const SizeGauge& a, const SizeGauge& b) { return share(a) < share(b); });
  return static_cast<std::size_t>(least - gauges.begin());
}

void take_wanted(const Options& options, const SwatchKnown& known, SwatchShown& shown) {
  const auto text = options.text("want");
  if (!text) return;
  shown.wanted = parse_wanted(*text, known.terms.bare, "--want");
  const auto counted = [&](std::optional<GaugeMean> SizeGauge::*which) {
    return std::any_of(shown.gauges.begin(), shown.gauges.end(),
                       [&](const SizeGauge& gauge) { return gauge.mm && gauge.*which; });
  };
  if (std::none_of(shown.gauges.begin(), shown.gauges.end(),
                   [](const SizeGauge& gauge) { return gauge.mm.has_value(); })) {
    refuse("--want: which size to try needs the size of a swatch: --swatch \"4 mm, 33 st over 15 cm\"");
  }
  if (shown.wanted->stitch && !counted(&SizeGauge::stitch)) {
    refuse("--want: stitches are wanted and none were counted; add them to a swatch, as 33 st over 15 cm");
  }
  if (shown.wanted->row && !counted(&SizeGauge::row)) {
    refuse("--want: rows are wanted and none were counted; add them to a swatch, as 24 rows over 14.5 cm");
  }
  shown.next = next_size(shown.gauges, shown.tool, *shown.wanted);
}

const YarnClass* class_option(const Options& options) {
  const auto text = options.text("yarn-class");
  if (!text) return nullptr;
  const YarnClass* found = yarn_class_named(*text);
  if (found != nullptr) return found;
  std::vector<std::string> names;
  for (const YarnClass& one : yarn_classes()) names.emplace_back(one.name);
  refuse(fmt::format("--yarn-class: '{}' is none of 0 to 7, {}{}", printable(*text, 40), fmt::join(names, ", "),
                     did_you_mean(fold_case(*text), names)));
}

std::string yarn_word(const Options& options, const SwatchKnown& known) {
  if (known.project) return typed_path(known.project->path);
  return options.has("yarn") ? "--yarn " + typed_path(*options.text("yarn")) : std::string();
}

SwatchShown shown_of(const Options& options, const SwatchKnown& known, const SwatchesTold& gathered) {
  SwatchShown shown;
  shown.tool = gathered.tool.value_or(known.terms.tool);
  shown.gauges = gauges(gathered.swatches);
  shown.size_notes = gathered.notes;
  take_wanted(options, known, shown);
  shown.in_hand = told_in_hand(options, shown).value_or(least_known(shown.gauges));
  shown.sharper = sharper(gathered.swatches, shown.gauges[shown.in_hand].mm);
  shown.pattern = known.terms.pattern;
  shown.working = known.working;
  shown.turn = turn_of(known, gathered);
  shown.yarn_class = class_option(options);
  shown.has_yarn = known.yarn.has_value();
  shown.yarn_word = yarn_word(options, known);
  return shown;
}

double kept(double value) { return std::round(value * 100) / 100; }

did::Gauge gauge_entry(const Options& options, const SwatchKnown& known, const SwatchShown& shown) {
  if (!told_in_hand(options, shown)) {
    refuse("--record: the swatches are of several sizes; say which one the work is made with: --size \"4 mm\"");
  }
  const SizeGauge& gauge = shown.gauges[shown.in_hand];
  const Unit unit = known.terms.bare;
  did::Gauge entry;
  const auto amount = [&](Length length) {
    const Amount exact = amount_in(length, unit, {});
    return Amount{std::round(exact.number * 1000) / 1000, exact.unit};
  };
  if (gauge.yarn) entry.yarn_per_stitch = amount(gauge.yarn->mean);
  if (shown.turn.yarn && shown.turn.yarn != known.project->state.fabric.yarn_per_turn) {
    entry.yarn_per_turn = amount(*shown.turn.yarn);
  }
  if (gauge.stitch) entry.stitches_in_10cm = kept(gauge.stitch->in_10cm());
  if (gauge.row) entry.rows_in_10cm = kept(gauge.row->in_10cm());
  entry.washed_stitches_in_10cm = count_in_10cm(options, "washed-stitches-in-10cm");
  entry.washed_rows_in_10cm = count_in_10cm(options, "washed-rows-in-10cm");
  if (gauge.mm) {
    entry.size = fmt::format("{}{} mm", shown.tool == Tool::needle ? "needle " : "", plain_number(*gauge.mm, 3));
  }
  return entry;
}

std::string ball_of_swatch(const SwatchTold& told, const State& state) {
  if (!told.ball.empty()) return told.ball;
  if (state.working) return state.balls[*state.working].id;
  if (state.balls.size() == 1) return state.balls.front().id;
  refuse("--record: which ball was the swatch worked from? Write it into --swatch: used 9 m of ball A");
}

// What a ball band says is not exact.
void refuse_more_than_held(const BallState* ball, Length used, Told told) {
  constexpr double generous = 1.1;
  if (ball == nullptr || !ball->left || used <= generous * std::max(Length(), *ball->left)) return;
  refuse(fmt::format("--swatch: ball {} holds about {}, and {} of it can't have been used; look at the unit",
                     printable(ball->id, 40), amount(std::max(Length(), *ball->left), told), amount(used, told)));
}

Outcome record_swatches(const Options& options, const Context& context, const Common& common, const SwatchKnown& known,
                        const SwatchesTold& gathered, const SwatchShown& shown) {
  const did::Gauge gauge = gauge_entry(options, known, shown);
  const Recorded recorded = record(*known.project, options, context, [&](const Project&, const State& state) {
    std::vector<Did> entries{gauge};
    std::map<std::string, Length> used;  // of each ball
    for (const SwatchTold& told : gathered.told) {
      if (!told.used) continue;
      const std::string ball = ball_of_swatch(told, state);
      used[ball] += to_length({told.used->number, told.used->unit}, state.ruler, "used");
      refuse_more_than_held(state.find_ball(ball), used[ball], known.told);
      entries.emplace_back(did::Swatch{ball, Amount{told.used->number, told.used->unit}});
    }
    return entries;
  });
  tell_recorded(recorded, swatch_screen(shown, common.screen, known.told), options, context, common);
  return Outcome::done;
}

}  // namespace

const OptionGroup& swatch_options() { return kGroup; }

bool tells_swatches(const Options& options) {
  return std::any_of(kRows.begin(), kRows.end(), [&](const OptionRow& row) { return options.has(row.name); });
}

Outcome run_swatches(const Options& options, Context& context) {
  refuse_what_goes_apart(options);
  const Common common = common_of(options, context);
  const SwatchKnown known = known_of(options, context, common);
  const SwatchesTold gathered = swatches_told(options, known);
  const SwatchShown shown = shown_of(options, known, gathered);
  if (options.has("record")) return record_swatches(options, context, common, known, gathered, shown);
  answer(context, common,
         common.format == Format::json ? swatch_json(shown) : swatch_screen(shown, common.screen, known.told));
  const bool reached = !shown.next || shown.next->reach == Reach::keep || shown.next->reach == Reach::try_next;
  return reached ? Outcome::done : Outcome::settles_nothing;
}

}  // namespace ballchange
