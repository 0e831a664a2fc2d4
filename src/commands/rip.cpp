#include "commands/rip.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "project/join_lines.hpp"
#include "project/record.hpp"
#include "show/entry_text.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 1> kRows{{
    {"row", "N", "the last row that is left; 0 for the foundation alone"},
}};
constexpr OptionGroup kGroup{"Ravelling back", kRows};

std::string back_line(const Recorded& recorded, Told told, std::size_t columns) {
  const State& before = recorded.before;
  const State& after = recorded.after;
  const int rows = before.at->row - (after.at->stitch == 0 ? 0 : after.at->row);
  std::string text = rows_words(rows, after.fabric.working);
  if (before.used && after.used) {
    text = fmt::format("{} of yarn, out of {}", amount(*before.used - *after.used, told), text);
  }
  return labelled("Back", text + ", to be worked again.", columns);
}

// What became of those it touched.
void joins_member(Json& json, const Recorded& recorded) {
  json.key("joins").array();
  for (std::size_t i = 0; i < recorded.before.joins.size(); ++i) {
    const JoinState& after = recorded.after.joins[i];
    if (after.held == recorded.before.joins[i].held) continue;
    json.object().member("entry", after.entry).member("held", held_name(after.held)).end();
  }
  json.end();
}

// It was recorded where it lies at the least, and may lie in what was ravelled.
std::string may_be_out_line(const Recorded& recorded, const std::string& path, std::size_t columns) {
  const auto& joins = recorded.after.joins;
  const auto last = std::find_if(joins.rbegin(), joins.rend(),
                                 [](const JoinState& join) { return join.held == JoinHeld::in_work && !join.knot; });
  if (last == joins.rend() || !last->at_least || !last->place) return {};
  return labelled(
      "Mind",
      fmt::format("the join to ball {} lies at {}: if it came out as well, type: ballchange rip {} --row {}",
                  printable(last->new_ball, 40), place_words(*last, recorded.after.fabric.working), typed_path(path),
                  last->place->row - 1),
      columns);
}

}  // namespace

std::vector<OptionGroup> rip_options() { return {kGroup, writing_options(), common_options()}; }

Outcome run_rip(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const auto row = count_option(options, "row", 0);
  if (!row) {
    throw Problem(Fault::content, "rip needs the last row that is left: --row 30; --row 0 leaves the foundation alone");
  }
  const std::string path = project_path(options, context);
  const Recorded recorded =
      record(path, options, context, [&](const Project&, const State&) { return std::vector<Did>{did::Rip{*row}}; });
  const Told told = measures_of(options, recorded.project, recorded.after).told;
  const std::size_t columns = common.screen.text_columns();
  const std::string lines =
      back_line(recorded, told, columns) + join_lines(recorded, columns) + may_be_out_line(recorded, path, columns);
  MoreTold more;
  more.members = [&](Json& json) { joins_member(json, recorded); };
  tell_recorded(recorded, lines, options, context, common, more);
  return Outcome::done;
}

}  // namespace ballchange
