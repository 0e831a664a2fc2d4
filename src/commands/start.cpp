#include "commands/start.hpp"

#include <fmt/core.h>

#include <array>
#include <utility>

#include "base/limits.hpp"
#include "base/number.hpp"
#include "base/text.hpp"
#include "commands/ask.hpp"
#include "console/join_options.hpp"
#include "console/screen.hpp"
#include "console/yarn_per_stitch.hpp"
#include "files/append.hpp"
#include "files/yaml_values.hpp"
#include "ledger/fold.hpp"
#include "project/record.hpp"
#include "show/entry_values.hpp"
#include "show/start.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 2> kProject{{
    {"yarn", "PROFILE", "the yarn: a profile's name or file; copied into the project"},
    {"name", "TEXT", "what it is to be: \"Harbour wrap\""},
}};
constexpr OptionGroup kProjectGroup{"The project", kProject};

constexpr std::array<OptionRow, 10> kPiece{{
    {"worked", "rows|rounds|turned-rounds", "how the work goes (rows)"},
    {"stitches", "N", "stitches in a row"},
    {"multiple", "M+E", "what the stitch pattern needs: 4+1 is a multiple of 4 and 1"},
    {"rows", "N", "rows planned"},
    {"yarn-per-stitch", "L", "yarn one stitch takes"},
    {"yarn-per-turn", "L", "yarn a turn takes"},
    {"yarn-per-row", "L", "or: yarn a row takes, turn and all"},
    {"repeat-stitches", "N", "or: stitches that one whole repeat of the yarn makes"},
    {"foundation", "L", "yarn in the foundation"},
    {"edging", "L", "yarn to keep for the edging"},
}};
constexpr OptionGroup kPieceGroup{"The piece, as far as it is known", kPiece};

const OptionGroup& habit_options() {
  static const std::array<OptionRow, 4> rows{{
      {"method", "METHOD", method_names()},
      {"allowance", "L", "yarn a join itself takes"},
      {"tolerance", "L", "how far out of step is still good (two stitches)"},
      {"keep", "each-join|from-the-start", "judge each join by itself (usual), or with all before it"},
  }};
  static const OptionGroup group{"Its joins, unless one is told otherwise", rows};
  return group;
}

constexpr std::string_view kUsualFile = "project.yaml";

// "Harbour wrap" -> harbour-wrap.yaml. Letters beyond ASCII stay as they are.
std::string file_for(const std::string& name) {
  std::string file;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
    if (plain) {
      file += c;
    } else if (c >= 'A' && c <= 'Z') {
      file += static_cast<char>(c - 'A' + 'a');
    } else if (!file.empty() && file.back() != '-') {
      file += '-';
    }
  }
  while (!file.empty() && file.back() == '-') file.pop_back();
  return file.empty() ? std::string(kUsualFile) : file + ".yaml";
}

std::string new_path(const Options& options) {
  if (options.words().empty()) return file_for(options.text("name").value_or(""));
  return new_file(options.words().front(), "the project's file name");
}

Yarn yarn_for(const Options& options, const Context& context) {
  if (!options.has("yarn"))
    throw Problem(Fault::content, "start needs a yarn: --yarn PROFILE; all else can be told later");
  Profile profile = load_profile(*options.text("yarn"), context.disk, surroundings_of(context));
  for (const std::string& note : profile.notes) remark(context, note);
  return std::move(profile.yarn);
}

Unit units_for(const Options& options, const Common& common, const Yarn& yarn) {
  const bool stitch_known = options.has("yarn-per-stitch") || options.has("yarn-per-row");
  if (yarn.reckoning == Reckoning::stitches && !stitch_known) return Unit::st;
  return common.inches ? Unit::in : Unit::cm;
}

Project project_for(const Options& options, const Context& context, const Common& common) {
  Project project{.name = without_tabs(trim(options.text("name").value_or(""))),
                  .units = Unit::cm,
                  .yarn = yarn_for(options, context),
                  .piece = {},
                  .join = {},
                  .entries = {}};
  if (options.has("name")) {
    if (const auto fault = line_fault(project.name, "--name", kMostNameBytes)) throw Problem(Fault::content, *fault);
  }
  project.units = units_for(options, common, project.yarn);
  Piece& piece = project.piece;
  piece.working = worked_option(options);
  piece.stitches = count_option(options, "stitches", 1);
  piece.multiple = multiple_option(options);
  piece.rows = count_option(options, "rows", 1);
  measure_stitch(options, project.units, project.yarn, piece);
  piece.foundation = amount_option(options, "foundation", project.units);
  piece.edging = amount_option(options, "edging", project.units);
  JoinHabit& join = project.join;
  join.method = method_option(options);
  join.allowance = amount_option(options, "allowance", project.units);
  join.tolerance = amount_option(options, "tolerance", project.units);
  join.keep_from_the_start = choice(options, "keep", false, {{"each-join", false}, {"from-the-start", true}});
  if (join.method && method_row(*join.method).only_if_felts && !project.yarn.felts) {
    throw Problem(Fault::content, fmt::format("--method: {} is not known to felt, so a felted join would come apart; "
                                              "threaded holds in any yarn",
                                              printable(project.yarn.name, 60)));
  }
  return project;
}

std::vector<std::string> remarks_on(const Project& project, const State& state) {
  std::vector<std::string> remarks;
  for (const Trouble& trouble : state.troubles) remarks.push_back(trouble.message);
  const Piece& piece = project.piece;
  if (piece.stitches && piece.multiple && !is_multiple(*piece.stitches, *piece.multiple)) {
    const auto [of, plus] = *piece.multiple;
    const int low = *piece.stitches < plus ? plus : *piece.stitches - (*piece.stitches - plus) % of;
    remarks.push_back(fmt::format("{} {} no {}: {} or {} would be", stitches(*piece.stitches),
                                  *piece.stitches == 1 ? "is" : "are", multiple_words(*piece.multiple), low, low + of));
  }
  if (!project.join.allowance) return remarks;
  const Method method = project.join.usual_method();
  const Reckoning reckoning = state.ruler.in_stitches ? Reckoning::stitches : Reckoning::centimetres;
  const auto range = allowance_range(method, reckoning, state.ruler.yarn_per_stitch);
  const Amount& told = *project.join.allowance;
  if (!range || (told.unit == Unit::st && !state.ruler.in_stitches && !state.ruler.yarn_per_stitch)) return remarks;
  const Length allowance = to_length({told.number, told.unit}, state.ruler, "--allowance");
  if (allowance < range->low || allowance > range->high) {
    remarks.push_back(fmt::format("an allowance of {} {} is not usual for a {} join", plain_number(told.number, 2),
                                  unit_name(told.unit), method_row(method).name));
  }
  return remarks;
}

void refuse_wide_tolerance(const Project& project, const State& state, Told told) {
  const std::optional<Amount>& tolerance = project.join.tolerance;
  if (!tolerance) return;
  if (tolerance->unit == Unit::st && !state.ruler.in_stitches && !state.ruler.yarn_per_stitch) return;
  JoinWish wish;
  wish.tolerance = to_length({tolerance->number, tolerance->unit}, state.ruler, "--tolerance");
  ballchange::refuse_wide_tolerance(wish, state.yarn.repeat, told);
}

void refuse_what_is_there(const std::string& path, const Context& context) {
  static_cast<void>(place_of_new(context.disk, path));
  if (!context.disk.is_file(path)) return;
  throw Problem(Fault::file,
                fmt::format("{} is there already and was left as it is; choose another name", printable(path)));
}

// The line that holds the piece, as it must become; 60 stands for the stitches of a row.
std::string piece_line(Project project) {
  project.piece.stitches = 60;
  const std::string text = write_project(project);
  const std::size_t start = text.find("\npiece:") + 1;
  return text.substr(start, text.find('\n', start) - start);
}

}  // namespace

std::vector<OptionGroup> start_options() {
  return {kProjectGroup, kPieceGroup, habit_options(), writing_options(), common_options()};
}

Outcome run_start(const Options& given, Context& context) {
  const Common common = common_of(given, context);
  const std::string path = new_path(given);
  static_cast<void>(moment_of(given, context));
  if (can_ask(context, common)) refuse_what_is_there(path, context);
  const Options options = with_piece(given, context, common, [&](const Options& with) {
    static_cast<void>(project_for(with, context.muted(), common));
  });
  const Project told = project_for(options, context, common);
  const std::string text = write_project(told);
  const Project project = read_project(text, path).project;  // as every command after this one will find it
  const State state = fold(project);
  refuse_wide_tolerance(project, state, measures_of(options, project, state).told);
  const bool dry = options.has("dry-run");
  if (dry) {
    refuse_what_is_there(path, context);
  } else {
    for (const std::string& remark : start_file(context.disk, path, patience(path, context), text)) {
      complain(context, remark);
    }
    stands_now(context, fmt::format("{} was opened", printable(path)));
  }
  const StartShown shown{path, project, state, remarks_on(project, state), !dry, text, piece_line(project)};
  answer(context, common,
         common.format == Format::json ? start_json(shown)
                                       : start_screen(shown, common.screen, measures_of(options, project, state).told));
  return Outcome::done;
}

}  // namespace ballchange
