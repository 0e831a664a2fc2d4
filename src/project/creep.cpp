#include "project/creep.hpp"

#include <algorithm>
#include <cmath>

#include "base/problem.hpp"
#include "fabric/sizes.hpp"
#include "fabric/tool_size.hpp"
#include "project/begun.hpp"

namespace ballchange {
namespace {

constexpr double kTwoStitches = 2;

// A shift at a join shows from the tolerance on; so does what a repeat creeps.
Length shows_from(const Project& project, const State& state) {
  const Length stitch = *state.gauge.now().yarn_per_stitch;
  if (!project.join.tolerance) return kTwoStitches * stitch;
  try {
    const Amount& told = *project.join.tolerance;
    const Length length = to_length({told.number, told.unit}, state.ruler, "tolerance");
    return length > Length() ? length : kTwoStitches * stitch;
  } catch (const Problem&) {
    return kTwoStitches * stitch;
  }
}

std::optional<OtherSize> other_size(const State& state, const creeping::Creep& creep) {
  const auto told = state.size ? tool_size(*state.size, Tool::hook) : std::nullopt;
  if (!told) return std::nullopt;
  const double wanted = size_by_stitch(told->mm, 1 / (1 + creep.creep.mean));
  const auto all = sizes(told->tool);
  const auto best = std::min_element(all.begin(), all.end(), [&](const ToolSize& a, const ToolSize& b) {
    return std::abs(a.mm - wanted) < std::abs(b.mm - wanted);
  });
  // Nearer to what is wanted than the size in use.
  if (std::abs(best->mm - wanted) >= std::abs(told->mm - wanted)) return std::nullopt;
  return OtherSize{told->mm, best->mm, told->tool == Tool::needle};
}

}  // namespace

CreepShown creep_of(const Project& project, const State& state, const std::string& path) {
  CreepShown shown{state, {}, {}, {}, path};
  if (state.sightings.empty() || !state.gauge.now().yarn_per_stitch) return shown;
  const auto begin = begun_at(project, state);
  const bool backward = begin && begin->direction == Direction::backward;
  // A foundation that was not told may be of any length: then what is seen first says where the work begins.
  const bool start_known = begin && state.gauge.foundation_told();
  shown.creep =
      creeping::follow(state, backward ? state.yarn.repeat.mirrored() : state.yarn.repeat,
                       start_known ? std::optional(creeping::Start{begin->place, begin->variance}) : std::nullopt);
  shown.shows_from = shows_from(project, state);
  if (shown.creep && shown.creep->plain()) shown.size = other_size(state, *shown.creep);
  return shown;
}

}  // namespace ballchange
