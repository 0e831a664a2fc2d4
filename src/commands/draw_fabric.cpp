#include <fmt/format.h>

#include "commands/drawn.hpp"
#include "commands/pictures.hpp"
#include "project/drawn_fabric.hpp"
#include "show/fabric_terminal.hpp"

namespace ballchange {
namespace {

std::optional<OpenProject> project_of(const Options& options, const Context& context) {
  if (options.words().empty() && options.has("yarn")) return std::nullopt;
  return open_project(options, context);
}

}  // namespace

std::vector<OptionGroup> fabric_picture_options() { return {piece_options()}; }

Outcome run_draw_fabric(const Options& options, Context& context, const Common& common) {
  const auto open = project_of(options, context);
  DrawnFabric made = drawn_fabric(open ? &*open : nullptr, options, context, common);
  name_fabric(made.paper, open ? open->project.name : std::string());
  Drawn drawn{"fabric", ".svg", made.paper.title, made.paper.description, {}, {}, {}, {}};
  for (const auto& [what, remedy] : made.notes)
    drawn.notes.push_back(remedy.empty() ? what : fmt::format("{}; {}", what, remedy));
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
