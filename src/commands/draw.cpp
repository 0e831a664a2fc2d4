#include "commands/draw.hpp"

#include <fmt/format.h>

#include <array>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "commands/drawn.hpp"
#include "project/drawn_fabric.hpp"
#include "show/fabric_terminal.hpp"

namespace ballchange {
namespace {

constexpr Sheet kMost{180, 250};  // fits both A4 and Letter with a margin to hold it by

constexpr std::array<OptionRow, 1> kRows{{
    {"out", "FILE.svg", "the picture as a file; otherwise it is drawn on the screen"},
}};
constexpr OptionGroup kGroup{"The picture (records nothing)", kRows};

std::optional<OpenProject> project_of(const std::optional<std::string>& word, const Options& options,
                                      const Context& context) {
  if (!word && options.has("yarn")) return std::nullopt;
  return open_project(project_path(word, context), context);
}

void draw_fabric_of(const std::optional<OpenProject>& open, const Options& options, Context& context,
                    const Common& common) {
  DrawnFabric made = drawn_fabric(open ? &*open : nullptr, options, context, common);
  name_fabric(made.paper, open ? open->project.name : std::string());
  Drawn drawn{"fabric", ".svg", made.paper.title, made.paper.description, {}, {}, {}, {}};
  for (const auto& [what, remedy] : made.notes) drawn.notes.push_back(remedy.empty() ? what : what + "; " + remedy);
  drawn.file = [&made] {
    Drawing drawing("fabric", made.paper.title, made.paper.description);
    const Sheet sheet = draw_fabric(drawing, made.paper, 2, 2, kMost);
    return drawing.file({sheet.width + 4, sheet.height + 4});
  };
  drawn.text = fabric_text(made.paper.scene, common.screen);
  drawn.members = [&made](Json& json) {
    const FabricScene& scene = made.paper.scene;
    json.member("stitches", scene.stitches).member("rows", scene.rows);
    json.member("shapes", scene.patches.size());
  };
  deliver(drawn, options, context, common);
}

}  // namespace

std::vector<OptionGroup> draw_options() { return {kGroup, piece_options(), common_options()}; }

Outcome run_draw(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const std::vector<std::string>& words = options.words();
  if (words.empty()) throw Problem(Fault::content, "draw needs to know what: strands, fabric or repeat");
  if (words.front() != "fabric") {
    throw Problem(Fault::content,
                  fmt::format("draw: '{}' is not one of strands, fabric, repeat", printable(words.front(), 40)));
  }
  const auto open = project_of(words.size() > 1 ? std::optional(words[1]) : std::nullopt, options, context);
  draw_fabric_of(open, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
