#include "commands/gauge.hpp"

#include <fmt/core.h>

#include <array>
#include <cmath>

#include "commands/gauge_fall.hpp"
#include "commands/gauge_swatch.hpp"
#include "console/yarn_per_stitch.hpp"
#include "project/record.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 9> kRows{{
    {"yarn-per-stitch", "L", "yarn one stitch takes"},
    {"yarn-per-row", "L", "or: yarn a row takes, turn and all"},
    {"repeat-stitches", "N", "or: stitches that one whole repeat of the yarn makes"},
    {"yarn-per-turn", "L", "yarn a turn takes"},
    {"stitches-in-10cm", "N", "stitches across 10 cm of the work"},
    {"rows-in-10cm", "N", "rows up 10 cm of it"},
    {"washed-stitches-in-10cm", "N", "the same once it is washed and dried: sizes are told so"},
    {"washed-rows-in-10cm", "N", "rows up 10 cm of it, washed and dried"},
    {"size", "TEXT", "hook or needle, like \"4 mm\""},
}};
constexpr OptionGroup kGroup{"The gauge from here on", kRows};

// The yarn a stitch takes, and a turn where that follows.
void tell_stitch(const Options& options, Unit bare, const Project& project, const State& state, did::Gauge& gauge) {
  if (options.has("yarn-per-row") && !project.piece.stitches) {
    throw Problem(Fault::content,
                  "--yarn-per-row needs the stitches in a row: write them into the project's file, like piece: "
                  "{stitches: 60}, or tell --yarn-per-stitch");
  }
  Piece piece;
  piece.stitches = project.piece.stitches;
  measure_stitch(options, bare, project.yarn, piece,
                 state.ruler.in_stitches ? Length() : state.gauge.now().yarn_per_turn);
  gauge.yarn_per_stitch = piece.yarn_per_stitch;
  gauge.yarn_per_turn = piece.yarn_per_turn;
}

did::Gauge gauge_of(const Options& options, const Project& project, const State& state) {
  const Unit bare = measures_of(options, project, state).ruler.bare;
  did::Gauge gauge;
  tell_stitch(options, bare, project, state, gauge);
  gauge.stitches_in_10cm = count_in_10cm(options, "stitches-in-10cm");
  gauge.rows_in_10cm = count_in_10cm(options, "rows-in-10cm");
  gauge.washed_stitches_in_10cm = count_in_10cm(options, "washed-stitches-in-10cm");
  gauge.washed_rows_in_10cm = count_in_10cm(options, "washed-rows-in-10cm");
  gauge.size = options.text("size");
  if (gauge == did::Gauge()) {
    throw Problem(Fault::content,
                  "gauge needs something to record: --yarn-per-stitch 1.9cm, --yarn-per-row, --repeat-stitches, "
                  "--yarn-per-turn, --stitches-in-10cm, --rows-in-10cm or --size; or a swatch, --swatch \"4 mm, 33 st "
                  "over 15 cm\"; or the "
                  "widths to choose from, --widths 60-120");
  }
  return gauge;
}

std::string row_line(const Recorded& recorded, Told told, std::size_t columns) {
  const auto before = recorded.before.gauge.row();
  const auto after = recorded.after.gauge.row();
  if (!after || told == Told::stitches) return {};
  std::string text = fmt::format("takes {} of yarn", amount(*after, told));
  if (before && recorded.before.ruler.in_stitches == recorded.after.ruler.in_stitches) {
    const long change = std::lround((*after / *before - 1) * 100);
    if (change != 0) text += fmt::format(", {} % {} than before", std::abs(change), change > 0 ? "more" : "less");
  }
  const bool rows = recorded.after.fabric.working == Working::rows;
  return labelled(rows ? "Row" : "Round", text + ".", columns);
}

}  // namespace

std::vector<OptionGroup> gauge_options() {
  return {kGroup, swatch_options(), fall_options(), writing_options(), common_options()};
}

Outcome run_gauge(const Options& options, Context& context) {
  if (tells_swatches(options)) return run_swatches(options, context);
  if (asks_how_colours_fall(options)) return run_fall(options, context);
  const Common common = common_of(options, context);
  const Recorded recorded = record(
      project_path(options, context), options, context,
      [&](const Project& project, const State& state) { return std::vector<Did>{gauge_of(options, project, state)}; });
  const Told told = measures_of(options, recorded.project, recorded.after).told;
  tell_recorded(recorded, row_line(recorded, told, common.screen.text_columns()), options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
