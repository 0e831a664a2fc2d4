#include <fmt/core.h>

#include <algorithm>

#include "base/problem.hpp"
#include "commands/drawn.hpp"
#include "commands/pictures.hpp"
#include "console/join_options.hpp"
#include "project/advise_project.hpp"
#include "project/drawn_fabric.hpp"
#include "show/fabric_terminal.hpp"
#include "show/profile_notes.hpp"

namespace ballchange {
namespace {

std::optional<OpenProject> project_of(const Options& options, const Context& context) {
  if (options.words().empty() && options.has("yarn")) return std::nullopt;
  return open_project(options, context);
}

// What tells of a join that is thought of, besides of the piece.
std::vector<OptionGroup> join_groups() {
  return {end_options(), join_options(), work_options(), reading_options(), way_options()};
}

void refuse_join_options(const Options& options) {
  const auto& piece = piece_options().rows;
  for (const OptionGroup& group : join_groups()) {
    for (const OptionRow& row : group.rows) {
      const bool of_piece =
          std::any_of(piece.begin(), piece.end(), [&](const OptionRow& own) { return own.name == row.name; });
      if (!options.has(row.name) || of_piece) continue;
      throw Problem(Fault::content, fmt::format("--{} is for a join that is drawn before and after: tell its ends "
                                                "with --old and --new, or leave it out",
                                                row.name));
    }
  }
}

}  // namespace

std::vector<OptionGroup> fabric_picture_options() {
  std::vector<OptionGroup> groups = join_groups();
  groups.insert(groups.begin(), {piece_options(), piece_drawing_options()});
  return groups;
}

Outcome run_draw_fabric(const Options& options, Context& context, const Common& common) {
  if (proposes_join(options)) return run_draw_proposed(options, context, common);
  refuse_join_options(options);
  const auto open = project_of(options, context);
  DrawnFabric made = drawn_fabric(open ? &*open : nullptr, options, context, common);
  name_fabric(made.paper, open ? open->project.name : std::string());
  Drawn drawn{"fabric", ".svg", made.paper.title, made.paper.description, {}, {}, {}, {}};
  drawn.notes = notes_of(made);
  drawn.unshaded = unshaded_note(made.paper.scene.colours);
  drawn.file = [&made] {
    Drawing drawing("fabric", made.paper.title, made.paper.description);
    const Sheet sheet = draw_fabric(drawing, made.paper, 2, 2, kMostPaper);
    return drawing.file({sheet.width + 4, sheet.height + 4});
  };
  drawn.text = fabric_text(made.paper.scene, common.screen);
  drawn.members = [&made](Json& json) {
    const FabricScene& scene = made.paper.scene;
    json.member("stitches", scene.stitches).member("rows", scene.rows);
    json.member("shapes", scene.patches.size());
  };
  deliver(drawn, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
