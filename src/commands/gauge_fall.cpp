#include "commands/gauge_fall.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"
#include "commands/fall_widths.hpp"
#include "console/join_options.hpp"
#include "console/place_word.hpp"
#include "console/yarn_per_stitch.hpp"
#include "fabric/tool_size.hpp"
#include "project/advise_project.hpp"
#include "show/fall.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr int kRingRows = 2000;  // more rows than that close by luck: 1 % of yarn is the whole repeat by then
constexpr double kMeets = 2;     // stitches that the last and the first may be apart

constexpr std::array<OptionRow, 11> kRows{{
    {"yarn", "PROFILE", "the yarn, where there is no project"},
    {"widths", "LOW-HIGH", "stitches to choose from, as 60-120"},
    {"multiple", "M+E", "what the stitch pattern needs: 4+1 is a multiple of 4 and 1"},
    {"worked", "rows|rounds|turned-rounds", "how the work goes (rows)"},
    {"look", "argyle|columns|stripes|swirl", "only widths where the colours do that"},
    {"height", "H", "how tall a diamond, or the whole repeat: 35 rows, or 12cm"},
    {"stitches", "N", "a width in mind: what it does, what would do better"},
    {"rows", "N", "rows of a panel, or at most of a ring, of that width"},
    {"first", "PLACE", "what the first stitch is to be, as \"rust 26\""},
    {"foundation", "L", "yarn in the foundation"},
    {"new", "READING", "the loose end that is begun with"},
}};
constexpr OptionGroup kGroup{"How the colours will fall (records nothing)", kRows};

struct Case {
  Yarn yarn;
  Measures measures;
  Fabric fabric;
  std::optional<double> stitches_in_10cm, rows_in_10cm;
  std::optional<std::string> size;
  std::optional<Length> foundation;
  bool washed = false;     // both of these
  bool turn_told = false;  // how much yarn a turn takes
  Multiple pattern = {};
};

Case from_profile(const Options& options, const Context& context, const Common& common) {
  Yarn yarn = yarn_of(options, context);
  const Measures measures = measures_of(options, common, &yarn);
  return {std::move(yarn), measures, fabric_of(options, measures.ruler), {}, {}, {}, {}};
}

// With the project, or by an entry of its log that counts; that it takes none may be told too.
bool tells_turn(const Project& project, const State& state) {
  if (project.piece.yarn_per_turn) return true;
  for (std::size_t k = 0; k < project.entries.size(); ++k) {
    const auto* gauge = std::get_if<did::Gauge>(&project.entries[k].what);
    if (gauge != nullptr && gauge->yarn_per_turn && state.counts(static_cast<int>(k) + 1)) return true;
  }
  return false;
}

Case from_project(const Options& options, const Context& context) {
  const OpenProject open = open_project(options, context);
  const Measures measures = project_measures(options, open.project, open.state);
  const State& state = open.state;
  Case given{
      state.yarn, measures, fabric_in(options, state, measures.ruler), state.stitches_in_10cm, state.rows_in_10cm,
      state.size, {}};
  // What is worn is washed; where only one of both was told so, the other is as worked.
  given.washed = state.washed_stitches_in_10cm || state.washed_rows_in_10cm;
  if (state.washed_stitches_in_10cm) given.stitches_in_10cm = state.washed_stitches_in_10cm;
  if (state.washed_rows_in_10cm) given.rows_in_10cm = state.washed_rows_in_10cm;
  given.pattern = open.project.piece.multiple.value_or(Multiple());
  given.turn_told = tells_turn(open.project, state);
  if (const auto& made = open.project.piece.foundation) {
    given.foundation = to_length({made->number, made->unit}, measures.ruler, "foundation");
  }
  return given;
}

// Of the width in mind, or of the project's rows.
void take_row(const Options& options, Case& given) {
  if (!options.has("yarn-per-row")) return;
  if (given.yarn.reckoning == Reckoning::stitches) {
    refuse("--yarn-per-row: this yarn is written in stitches already; leave it out");
  }
  Piece piece;
  piece.stitches = given.fabric.stitches;
  measure_stitch(options, given.measures.ruler.bare, given.yarn, piece, given.fabric.yarn_per_turn);
  const auto length = [](const Amount& amount) { return to_length({amount.number, amount.unit}, {}, ""); };
  if (piece.yarn_per_stitch) given.fabric.yarn_per_stitch = length(*piece.yarn_per_stitch);
  if (piece.yarn_per_turn) {
    given.fabric.yarn_per_turn = length(*piece.yarn_per_turn);
    given.turn_told = true;
  }
}

Case case_of(const Options& options, const Context& context, const Common& common) {
  const bool named = !options.words().empty();
  if (named) refuse_other_yarn(options);
  for (const std::string_view name : {"dry-run", "at"}) {
    if (options.has(name)) {
      refuse(fmt::format(
          "--{} is for recording, and asking how the colours fall records nothing; leave one of them out", name));
    }
  }
  if (!named && !options.has("yarn") && project_files(context).empty()) {
    refuse("gauge needs a project, or a yarn and what a stitch takes: --yarn PROFILE --yarn-per-stitch 1.85cm");
  }
  Case given = options.has("yarn") ? from_profile(options, context, common) : from_project(options, context);
  if (const auto count = count_option(options, "repeat-stitches", 1)) {
    if (options.has("yarn-per-stitch")) refuse("--repeat-stitches: leave it out, or --yarn-per-stitch");
    given.fabric.yarn_per_stitch = given.yarn.repeat.total() / *count;
  }
  given.turn_told = given.turn_told || options.has("yarn-per-turn");
  take_row(options, given);
  if (!given.fabric.yarn_per_stitch) {
    refuse("how the colours fall needs the yarn in a stitch: --yarn-per-stitch 1.85cm (work 20, ravel, measure)");
  }
  if (options.has("stitches-in-10cm") || options.has("rows-in-10cm")) given.washed = false;
  if (const auto told = count_in_10cm(options, "stitches-in-10cm")) given.stitches_in_10cm = told;
  if (const auto told = count_in_10cm(options, "rows-in-10cm")) given.rows_in_10cm = told;
  if (const auto told = options.text("size")) {
    if (!tool_size(*told, Tool::hook)) {
      refuse(fmt::format("--size: '{}' is no hook or needle, like 4mm, hook G or needle US 6", printable(*told, 40)));
    }
    given.size = told;
  }
  if (const auto told = length_option(options, "foundation", given.measures.ruler)) given.foundation = told;
  if (const auto told = multiple_option(options)) given.pattern = *told;
  return given;
}

Colouring colouring_of(const Case& given) {
  return {shortest_period(given.yarn.repeat), given.yarn.repeat.total() / static_cast<double>(given.yarn.repeat.size()),
          *given.fabric.yarn_per_stitch, given.fabric.yarn_per_turn, given.fabric.working};
}

std::optional<int> told_width(std::string_view text) {
  constexpr std::size_t most_digits = 6;
  const std::string_view word = trim(text);
  return word.size() > most_digits ? std::nullopt : whole_number(word, 1, kMostStitches);
}

void take_widths(const Options& options, FallShown& shown) {
  const auto text = options.text("widths");
  if (!text) {
    if (!shown.in_mind && !options.has("first")) {
      refuse("gauge needs the widths to choose from, or one in mind: --widths 60-120, --stitches 74");
    }
    return;
  }
  const std::size_t dash = text->find('-');
  const auto low = told_width(text->substr(0, dash));
  const auto high = dash == std::string::npos ? low : told_width(text->substr(dash + 1));
  if (!low || !high || *low > *high) {
    refuse(fmt::format("--widths: '{}' is not a range of stitches from 1 to {}, like 60-120", printable(*text, 40),
                       kMostStitches));
  }
  shown.low = *low;
  shown.high = *high;
}

std::optional<Look> look_option(const Options& options, const Colouring& yarn) {
  const bool rounds = yarn.working == Working::rounds;
  const Look usual = rounds ? Look::swirl : Look::argyle;
  if (!options.has("look")) return options.has("height") ? std::optional(usual) : std::nullopt;
  const Look look = choice(
      options, "look", usual,
      {{"argyle", Look::argyle}, {"columns", Look::columns}, {"stripes", Look::stripes}, {"swirl", Look::swirl}});
  if (look == Look::argyle && rounds) {
    refuse(
        "--look: argyle needs rows that run both ways; in rounds colours swirl (--look swirl), unless each is turned "
        "(--worked turned-rounds)");
  }
  if (look == Look::swirl && !rounds) {
    refuse(
        "--look: swirl is for rounds; where the work is turned diagonals cross (--look argyle), or tell --worked "
        "rounds");
  }
  return look;
}

std::optional<double> height_option(const Options& options, const Case& given, std::optional<Look> look) {
  const auto text = options.text("height");
  if (!text) return std::nullopt;
  if (look == Look::columns) refuse("--height: columns have none; leave it out");
  const auto parts = parse_quantities(*text, "a height, like 35 rows or 12cm", "--height");
  const std::string_view unit = parts.front().unit;
  double rows = parts.front().number;
  if (std::any_of(parts.begin(), parts.end(), [](const auto& part) { return unit_named(part.unit) == Unit::st; })) {
    refuse(
        fmt::format("--height: '{}' counts stitches, which go across; a height is told in rows or in cm: 35 rows, 12cm",
                    printable(*text, 40)));
  }
  if (parts.size() != 1 || !(unit.empty() || unit == "rows" || unit == "row" || unit == "rounds" || unit == "r")) {
    if (!given.rows_in_10cm) {
      refuse("--height: in rows, as the rows to 10 cm aren't known; or tell --rows-in-10cm 26");
    }
    const Ruler ruler{Unit::cm, std::nullopt, false};
    rows = parse_length(*text, ruler, "--height").cm() / 10 * *given.rows_in_10cm;
  }
  if (rows < 2 || rows > 10'000) refuse("--height: from 2 to 10,000 rows can be told apart");
  return rows;
}

void take_width_in_mind(const Options& options, const Case& given, FallShown& shown) {
  const auto& stitches = given.fabric.stitches;
  if (!stitches) {
    if (options.has("size")) refuse("--size goes with a width, to tell which other size would do: --stitches 74");
    if (options.has("rows")) refuse("--rows goes with the width of the panel or ring: --stitches 74");
    return;
  }
  if (*stitches > kMostStitches) refuse(fmt::format("--stitches: at most {}", kMostStitches));
  WidthInMind mind;
  mind.fall = fall(shown.colouring, *stitches);
  mind.panel_rows = count_option(options, "rows", 1);
  if (!is_wanted(mind.fall, shown)) {
    mind.instead = nearest_width(shown, *stitches);
    if (!mind.instead) mind.outside = nearest_outside(shown, *stitches, *stitches);
    if (given.size) mind.size = other_size(shown, *given.size, *stitches);
  }
  if (mind.panel_rows) {
    const int most = std::min(*mind.panel_rows, kRingRows);
    mind.ring_rows = most;
    mind.closings = closings(shown.colouring, *stitches, most, kMeets * shown.colouring.stitch);
    if (mind.closings.empty()) mind.nearest_closing = nearest_closing(shown.colouring, *stitches, most);
    if (given.foundation) {
      mind.between = between_panels(shown.colouring, *stitches, *mind.panel_rows, *given.foundation);
    }
  }
  shown.in_mind = std::move(mind);
}

// Where it doesn't settle, what `place` says of it.
std::optional<Length> loose_end(const Options& options, const Case& given, const Context& context,
                                const Common& common) {
  Palette palette{given.yarn.repeat.colours(), false};
  const Reading reading = reading_option(options, End::new_end, palette, given.measures.ruler, context);
  const Placing placing = place_reading(given.yarn, reading, match_options(options, given.measures));
  const auto axis = mirror_axis(given.yarn.repeat);
  const bool backward = placing.verdict == Verdict::settled && placing.best().direction == Direction::backward;
  if (placing.verdict == Verdict::settled && backward && axis) {
    return wrap(*axis - placing.place, given.yarn.repeat.total());
  }
  if (placing.verdict == Verdict::settled && !backward && !placing.ask) return placing.place;
  const PlaceShown shown{given.yarn, reading, placing};
  Json json;
  if (common.format == Format::json) place_json(json, shown);
  answer(context, common,
         common.format == Format::json ? json.take()
                                       : place_screen(shown, common.screen, given.measures.told, common.verbose));
  return std::nullopt;
}

Beginning beginning_of(const Options& options, const Case& given, std::optional<Length> end) {
  if (!given.foundation) refuse("--first needs the yarn in the foundation: --foundation 1.2m, or 0");
  const Repeat& repeat = given.yarn.repeat;
  Beginning begin;
  begin.wanted = parse_place(*options.text("first"), repeat, given.measures.ruler, "--first");
  begin.foundation = *given.foundation;
  begin.from = before_foundation(repeat.total(), Length(), begin.foundation, begin.wanted);
  if (!end) return begin;
  begin.let_by = before_foundation(repeat.total(), *end, begin.foundation, begin.wanted);
  if (given.fabric.stitches && begin.foundation > Length()) {
    begin.foundations = *begin.let_by / (begin.foundation / *given.fabric.stitches);
  }
  return begin;
}

}  // namespace

const OptionGroup& fall_options() { return kGroup; }

bool asks_how_colours_fall(const Options& options) {
  return std::any_of(kRows.begin(), kRows.end(), [&](const OptionRow& row) { return options.has(row.name); });
}

// Long: a line for each member of what is shown.
Outcome run_fall(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const Case given = case_of(options, context, common);
  FallShown shown{given.yarn,
                  colouring_of(given),
                  given.stitches_in_10cm,
                  given.rows_in_10cm,
                  {},
                  {},
                  0,
                  0,
                  {},
                  {},
                  {},
                  {},
                  {},
                  {},
                  false,
                  false};
  shown.verbose = common.verbose;
  shown.washed = given.washed;
  shown.turn_told = given.turn_told;
  shown.look = look_option(options, shown.colouring);
  shown.rows = height_option(options, given, shown.look);
  shown.pattern = given.pattern;
  take_width_in_mind(options, given, shown);
  take_widths(options, shown);
  take_falls(shown);
  if (options.has("new") && !options.has("first"))
    refuse("--new goes with what the first stitch is to be: --first rust");
  if (options.has("first")) {
    std::optional<Length> end;
    if (options.has("new")) {
      end = loose_end(options, given, context, common);
      if (!end) return Outcome::settles_nothing;
    }
    shown.beginning = beginning_of(options, given, end);
  }
  answer(context, common,
         common.format == Format::json ? fall_json(shown) : fall_screen(shown, common.screen, given.measures.told));
  return shown.low > 0 && !any_wanted(shown) ? Outcome::settles_nothing : Outcome::done;
}

}  // namespace ballchange
