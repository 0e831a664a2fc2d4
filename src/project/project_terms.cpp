#include <fmt/core.h>

#include <algorithm>

#include "console/join_options.hpp"
#include "ledger/worked.hpp"
#include "project/advise_project.hpp"

namespace ballchange {
namespace {

std::optional<RowStitch> hook_in(const Options& options, const State& state, const Fabric& fabric) {
  if (const auto told = hook_of(options, fabric.stitches)) return told;
  if (!state.at) return std::nullopt;
  if (row_is_done(*state.at, fabric)) return row_finished(state.at->row, fabric.stitches);
  return RowStitch{state.at->row, *state.at->stitch};
}

std::string shift_not_known(const State& state) {
  const auto untold = std::find_if(state.joins.begin(), state.joins.end(),
                                   [](const JoinState& join) { return join.held == JoinHeld::in_work && !join.shift; });
  const std::string which =
      untold == state.joins.end() ? std::string() : fmt::format(" since the join of entry {}", untold->entry);
  return fmt::format(
      "how far the work is out of step isn't known{}, and is taken as nothing; tell it with "
      "--out-of-step",
      which);
}

}  // namespace

Fabric fabric_in(const Options& options, const State& state, const Ruler& ruler) {
  Fabric fabric = state.fabric;
  const Fabric told = fabric_of(options, ruler);
  if (options.has("worked")) fabric.working = told.working;
  if (options.has("yarn-per-stitch")) fabric.yarn_per_stitch = told.yarn_per_stitch;
  if (options.has("yarn-per-turn")) fabric.yarn_per_turn = told.yarn_per_turn;
  if (told.stitches) fabric.stitches = told.stitches;
  return fabric;
}

Measures project_measures(const Options& options, const Project& project, const State& state) {
  Measures measures = measures_of(options, project, state);
  if (const auto stitch = stitch_option(options, measures.ruler)) measures.ruler.yarn_per_stitch = stitch;
  return measures;
}

ProjectTerms terms_of(const Options& options, const Project& project, const State& state) {
  ProjectTerms terms;
  terms.measures = project_measures(options, project, state);
  const Ruler& ruler = terms.measures.ruler;
  terms.match = match_options(options, terms.measures);
  terms.wish = join_wish(options, ruler, terms.match.tape);
  take_habits(project.join, ruler, terms.wish);
  if (options.has("tolerance")) refuse_wide_tolerance(terms.wish, state.yarn.repeat, terms.measures.told);
  const bool told = options.has("out-of-step");
  if (!told && !options.has("keep")) terms.wish.from_the_start = project.join.keep_from_the_start;
  if (!told && terms.wish.from_the_start) {
    terms.wish.out_of_step = state.totals.running_shift.value_or(Length());
    if (!state.totals.running_shift) terms.notes.push_back(shift_not_known(state));
  }
  terms.fabric = fabric_in(options, state, ruler);
  terms.hook = hook_in(options, state, terms.fabric);
  return terms;
}

}  // namespace ballchange
