#include "commands/row.hpp"

#include <fmt/format.h>

#include <array>

#include "base/text.hpp"
#include "commands/join_lines.hpp"
#include "commands/record.hpp"
#include "commands/seen.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 3> kRows{{
    {"row", "N", "the row the work stands in"},
    {"stitch", "N", "stitches of it that are done (left out: all)"},
    {"seen", "TEXT", "where a colour fell: \"row 120 stitch 14 navy begins\"", true},
}};
constexpr OptionGroup kGroup{"Where the work stands", kRows};

// Without --row the work stands where it stood, and only what was seen is told.
did::Row place_told(const Options& options, const State& state) {
  const auto row = count_option(options, "row", 1);
  const auto stitch = count_option(options, "stitch", 0);
  if (row) return {*row, stitch, {}};
  if (stitch) throw Problem(Fault::content, "--stitch says little without its row: give --row too");
  if (!options.has("seen") || !state.at) {
    throw Problem(Fault::content, "row needs the row the work stands in: --row 40, or --row 40 --stitch 12 in mid-row");
  }
  const bool whole = state.at->stitch == state.fabric.stitches;
  return {state.at->row, whole ? std::nullopt : state.at->stitch, {}};
}

did::Row row_of(const Options& options, const Project& project, const State& state) {
  did::Row row = place_told(options, state);
  for (const std::string& text : options.texts("seen")) {
    const Seen seen = parse_seen(text, project.yarn.repeat.colours());
    if (state.fabric.stitches && seen.place.stitch.value_or(0) > *state.fabric.stitches) {
      throw Problem(Fault::content, fmt::format("--seen: stitch {} of a row of {}; write 1 to {}", *seen.place.stitch,
                                                *state.fabric.stitches, *state.fabric.stitches));
    }
    const bool ahead = seen.place.row > row.row || (seen.place.row == row.row && row.stitch && seen.place.stitch &&
                                                    *seen.place.stitch > *row.stitch + 1);
    if (ahead) {
      throw Problem(Fault::content, fmt::format("--seen: {} is not worked yet: the work stands at {}",
                                                place_words(seen.place), place_words({row.row, row.stitch})));
    }
    row.seen.push_back(seen.text);
  }
  return row;
}

}  // namespace

std::vector<OptionGroup> row_options() { return {kGroup, writing_options(), common_options()}; }

Outcome run_row(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const Recorded recorded = record(
      project_path(options, context), options, context,
      [&](const Project& project, const State& state) { return std::vector<Did>{row_of(options, project, state)}; });
  tell_recorded(recorded, join_lines(recorded, common.screen.text_columns()), options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
