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

std::string_view working_words(Working working) {
  switch (working) {
    case Working::rows:
      return "worked in rows, to and fro";
    case Working::rounds:
      return "worked in rounds";
    case Working::turned_rounds:
      break;
  }
  return "worked in rounds that are turned";
}

std::string fabric_description(const FabricScene& scene) {
  const std::string_view rows = row_word(scene.working);
  std::string text = fmt::format("{} stitches wide, {} {}s, {}, row 1 at the bottom.", scene.stitches, scene.rows, rows,
                                 working_words(scene.working));
  if (scene.done) {
    text += scene.done->row == 0
                ? " Nothing is worked yet."
                : fmt::format(" Worked as far as {} {}, stitch {:.0f}.", rows, scene.done->row, scene.done->done);
  }
  if (!scene.joins.empty())
    text += fmt::format(" {} {}:", scene.joins.size(), scene.joins.size() == 1 ? "join" : "joins");
  for (std::size_t i = 0; i < scene.joins.size(); ++i) {
    const JoinMark& join = scene.joins[i];
    text += fmt::format("{} {} in {} {}", i == 0 ? "" : ",", join.label, rows, join.at.row);
  }
  return text + (scene.joins.empty() ? "" : ".");
}

void draw_fabric_of(const std::optional<OpenProject>& open, const Options& options, Context& context,
                    const Common& common) {
  DrawnFabric made = drawn_fabric(open ? &*open : nullptr, options, context, common);
  const std::string name = open ? open->project.name : std::string();
  made.paper.title = name.empty() ? "The piece" : name + ", the piece";
  made.paper.description = fabric_description(made.paper.scene);
  Drawn drawn{"fabric", ".svg", made.paper.title, made.paper.description, {}, {}, made.notes, {}};
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
