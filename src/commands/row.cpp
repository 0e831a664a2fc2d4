#include "commands/row.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <climits>
#include <cmath>
#include <utility>

#include "base/text.hpp"
#include "ledger/fold.hpp"
#include "ledger/worked.hpp"
#include "project/contested.hpp"
#include "project/creep.hpp"
#include "project/join_lines.hpp"
#include "project/record.hpp"
#include "show/check_project.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 3> kRows{{
    {"row", "N", "the row the work stands in"},
    {"stitch", "N", "stitches of it that are done (left out: all)"},
    {"seen", "TEXT",
     "where a colour fell, \"row 120 stitch 14 navy begins\", or what a joined one made, \"rust 41 stitches\"", true},
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
  const bool whole = row_is_done(*state.at, state.fabric);
  return {state.at->row, whole ? std::nullopt : state.at->stitch, {}};
}

std::string sections_of(const State& state, ColourId colour) {
  std::vector<std::string> lengths;
  const Length stitch = *state.gauge.now().yarn_per_stitch;
  for (const Section& section : state.yarn.repeat.sections()) {
    if (section.colour == colour) lengths.push_back(fmt::format("{}", std::lround(section.length / stitch)));
  }
  return and_list(lengths);
}

// A count that no join takes up, found out before it is written.
void refuse_counts_that_do_not_fit(const std::vector<Seen>& counts, const did::Row& row, const Project& project,
                                   const State& state) {
  if (counts.empty()) return;
  const int own = static_cast<int>(project.entries.size()) + 1;
  const auto& [troubles, after] = check_next(project, state, row);
  for (const Trouble& trouble : troubles) {
    if (trouble.entry != own) continue;
    if (trouble.skipped) return;  // refused by whoever records it
    if (trouble.message.starts_with("--seen: ")) throw Problem(Fault::content, trouble.message);
  }
  const bool taken = std::any_of(after.joins.begin(), after.joins.end(),
                                 [own](const JoinState& join) { return join.seen && join.seen->entry == own; });
  if (taken) return;
  const Seen& last = counts.back();
  throw Problem(Fault::content,
                fmt::format("--seen: '{}' can't be the section a join lies in: {} makes about {} "
                            "stitches; count it again, or tell near which row it lies",
                            printable(last.text, 60), printable(after.yarn.repeat.colours()[last.colour].name, 40),
                            sections_of(after, last.colour)));
}

did::Row row_of(const Options& options, const Project& project, const State& state) {
  did::Row row = place_told(options, state);
  std::vector<Seen> counts;
  for (const std::string& text : options.texts("seen")) {
    Seen seen = parse_seen(text, project.yarn.repeat.colours(), "--seen");
    refuse_not_worked(seen, {row.row, row.stitch}, state.fabric, "--seen");
    row.seen.push_back(seen.text);
    if (seen.what == Seen::What::counted) counts.push_back(std::move(seen));
  }
  refuse_counts_that_do_not_fit(counts, row, project, state);
  return row;
}

// Both lines that tell of work ravelled back and begun again.
void refuse_behind(const did::Row& row, const std::string& path, const Project& project, const State& state) {
  const WorkPlace place{row.row, row.stitch ? row.stitch : state.fabric.stitches};
  if (!state.at || !(place < *state.at) || row.stitch.value_or(0) > state.fabric.stitches.value_or(INT_MAX)) return;
  const int own = static_cast<int>(project.entries.size()) + 1;
  const std::vector<Trouble> troubles = check_next(project, state, row).troubles;
  const bool refused = std::any_of(troubles.begin(), troubles.end(),
                                   [&](const Trouble& trouble) { return trouble.entry == own && trouble.skipped; });
  if (!refused) return;
  const Working working = state.fabric.working;
  const std::string file = typed_path(path);
  std::string lines = fmt::format("ballchange rip {} --row {}", file, row.stitch ? row.row - 1 : row.row);
  if (row.stitch.value_or(0) > 0) {
    lines += fmt::format(", then ballchange row {} --row {} --stitch {}", file, row.row, *row.stitch);
  }
  throw Problem(Fault::content, fmt::format("{}: {} lies before {}, where the work stands; if it was ravelled back, "
                                            "type: {}",
                                            printable(path), place_words({row.row, row.stitch}, working),
                                            place_words(*state.at, working), lines));
}

std::optional<std::string> beyond_the_ball(const Recorded& recorded, const std::string& path) {
  const State& after = recorded.after;
  const auto reach = reaches_only(after);
  if (!reach || reaches_only(recorded.before)) return std::nullopt;
  const std::string undo =
      recorded.written ? fmt::format(" (ballchange cancel {} {})", typed_path(path), recorded.entries().back().n)
                       : std::string();
  return fmt::format("ball {} reaches only about {} {}: was a join not recorded, or is {} a slip{}?",
                     printable(after.balls[*after.working].id, 60), row_word(after.fabric.working), *reach,
                     after.at->row, undo);
}

// So many stitches off what a join's readings say are rather a slip than a join.
constexpr double kSlip = 10;

std::vector<std::string> doubtful_counts(const Recorded& recorded, const std::string& path) {
  std::vector<std::string> doubts;
  const State& after = recorded.after;
  const int entry = recorded.entries().back().n;
  for (const JoinState& join : after.joins) {
    if (!join.seen || join.seen->entry != entry || !join.recorded_shift || join.held != JoinHeld::in_work) continue;
    const double more = (*join.shift - *join.recorded_shift) / *after.gauge.now().yarn_per_stitch;
    if (std::abs(more) < kSlip) continue;
    const std::string undo = recorded.written ? fmt::format(", and cancel it if it is a slip (ballchange cancel {} {})",
                                                            typed_path(path), entry)
                                              : std::string();
    doubts.push_back(fmt::format("{} made {:g} stitches, but by the readings of entry {} about {}: count it again{}",
                                 printable(after.yarn.repeat.colours()[join.seen->colour].name, 40),
                                 join.seen->stitches, join.entry, std::lround(join.seen->stitches + more), undo));
  }
  return doubts;
}

// Counted stitches become yarn by a gauge that the scale contradicts.
std::optional<std::string> contested_count(const Recorded& recorded, const Options& options) {
  const auto shift = options.has("seen") ? contested_shift(recorded.after) : std::nullopt;
  if (!shift) return std::nullopt;
  const Told told = measures_of(options, recorded.project, recorded.after).told;
  std::string words = contested_words(*shift, told);
  words.pop_back();
  return words;
}

// What came of what was seen; where nothing was told of it, nothing.
std::string lines_seen(const Recorded& recorded, const CreepShown& creep, const Options& options,
                       const Common& common) {
  if (!options.has("seen")) return {};
  const Told told = measures_of(options, recorded.project, recorded.after).told;
  const std::size_t columns = common.screen.text_columns();
  return seen_lines(creep, recorded.entries().front().n, told, columns) + creep_lines(creep, told, columns) +
         longer_balls_lines(creep, told, columns);
}

}  // namespace

std::vector<OptionGroup> row_options() { return {kGroup, writing_options(), common_options()}; }

Outcome run_row(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const std::string path = project_path(options, context);
  Recorded recorded = record(path, options, context, [&](const Project& project, const State& state) {
    const did::Row row = row_of(options, project, state);
    refuse_behind(row, path, project, state);
    return std::vector<Did>{row};
  });
  if (auto beyond = beyond_the_ball(recorded, path)) {
    recorded.remarks.insert(recorded.remarks.begin(), std::move(*beyond));
  }
  for (std::string& doubt : doubtful_counts(recorded, path)) recorded.remarks.push_back(std::move(doubt));
  if (auto contested = contested_count(recorded, options)) recorded.remarks.push_back(std::move(*contested));
  const CreepShown creep = creep_of(recorded.project, recorded.after, path);
  const auto members = [&](Json& json) { creep_members(json, creep); };
  tell_recorded(recorded,
                join_lines(recorded, common.screen.text_columns()) + lines_seen(recorded, creep, options, common),
                options, context, common, MoreTold{members, false});
  return Outcome::done;
}

}  // namespace ballchange
