#include "project/project.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <system_error>

#include "base/text.hpp"
#include "console/screen.hpp"
#include "files/source.hpp"
#include "ledger/fold.hpp"

namespace ballchange {
namespace {

// As far as the yarn and the piece can push the format down; it is the first line of what `start` writes.
constexpr std::size_t kMostBeforeFormat = std::size_t{64} << 10U;
constexpr std::size_t kMostListed = 6;

bool says_project(std::string_view text) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  constexpr std::string_view key = "format:";
  if (text.starts_with(mark)) text.remove_prefix(mark.size());
  while (!text.empty()) {
    const std::size_t stop = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, stop);
    text.remove_prefix(std::min(stop + 1, text.size()));
    if (!line.starts_with(key)) continue;
    std::string_view value = trim(line.substr(key.size()));
    if (!value.empty() && (value.front() == '"' || value.front() == '\'')) value.remove_prefix(1);
    return value.starts_with("ballchange project ");
  }
  return false;
}

std::string listed_files(const std::vector<std::string>& files) {
  std::vector<std::string> shown;
  for (const std::string& file : files) {
    if (shown.size() == kMostListed) break;
    shown.push_back(printable(file, 60));
  }
  const std::string rest =
      files.size() > kMostListed ? fmt::format(" and {} more", files.size() - kMostListed) : std::string();
  return fmt::format("{}{}", fmt::join(shown, ", "), rest);
}

std::string only_project(const Context& context) {
  std::vector<std::string> files = project_files(context);
  if (files.size() == 1) return std::move(files.front());
  if (files.empty()) {
    throw Problem(Fault::content,
                  "no project file in this folder; name one after the command, or open one with: "
                  "ballchange start --yarn PROFILE");
  }
  throw Problem(Fault::content, fmt::format("several projects in this folder: {}; name the one meant right after the "
                                            "command, as {}",
                                            listed_files(files), typed_path(files.front())));
}

std::string_view without_yaml(std::string_view name) {
  return is_project_name(name) ? name.substr(0, name.rfind('.')) : name;
}

// Only names are compared: all files end alike.
std::string which_instead(std::string_view word, const Context& context) {
  const std::vector<std::string> files = project_files(context);
  std::vector<std::string> names;
  for (const std::string& file : files) names.emplace_back(without_yaml(file));
  if (const auto near = closest(without_yaml(word), names)) {
    const auto at = std::find(names.begin(), names.end(), *near) - names.begin();
    return fmt::format("did you mean {}?", printable(files[static_cast<std::size_t>(at)], 60));
  }
  if (files.empty()) return "see ballchange help start";
  return fmt::format("in this folder {} {}", files.size() == 1 ? "is" : "are", listed_files(files));
}

// Says what stands under a name that is no file: a folder, or something that can't be looked at.
void refuse_no_file(const std::string& path, const Context& context) {
  FileFacts facts;
  try {
    facts = context.disk.facts(path);
  } catch (const std::system_error& e) {
    if (e.code() == std::errc::no_such_file_or_directory) return;
    throw cannot_open(path, e);
  }
  if (facts.kind == FileFacts::Kind::folder) {
    throw Problem(Fault::file, fmt::format("{} is a folder: name the project file in it", printable(path)));
  }
}

}  // namespace

bool is_project_name(std::string_view name) { return name.ends_with(".yaml") || name.ends_with(".yml"); }

std::vector<std::string> project_files(const Context& context) {
  std::vector<std::string> files, closed;
  std::vector<std::string> names;
  try {
    names = context.disk.names_in(".");
  } catch (const std::system_error& e) {
    throw Problem(Fault::file, fmt::format("what is in this folder can't be told: {}", e.code().message()));
  }
  for (std::string& name : names) {
    if (!is_project_name(name) || name.front() == '.' || !context.disk.is_file(name)) continue;
    try {
      if (says_project(context.disk.read(name, kMostBeforeFormat))) files.push_back(std::move(name));
    } catch (const std::system_error&) {
      closed.push_back(std::move(name));
    }
  }
  // It may be the one that was meant: opening it says what is wrong, and beside others nothing is guessed.
  std::move(closed.begin(), closed.end(), std::back_inserter(files));
  return files;
}

std::optional<std::string> find_project(const std::string& word, const Context& context) {
  if (context.disk.is_file(word)) return word;
  if (word.empty() || is_project_name(word)) return std::nullopt;
  std::string named = word + ".yaml";
  return context.disk.is_file(named) ? std::optional(std::move(named)) : std::nullopt;
}

std::string project_path(const std::optional<std::string>& word, const Context& context) {
  if (!word) return only_project(context);
  if (auto found = find_project(*word, context)) return std::move(*found);
  if (!is_project_name(*word)) {
    if (word->find('/') == std::string::npos) {
      throw Problem(Fault::content, fmt::format("'{}' is no project file and belongs to no option: options begin with "
                                                "--, and a text of several words is quoted as one",
                                                printable(*word, 40)));
    }
  }
  refuse_no_file(*word, context);
  throw Problem(Fault::file, fmt::format("no project file {}; {}", printable(*word), which_instead(*word, context)));
}

std::string project_path(const Options& options, const Context& context) {
  return project_path(options.words().empty() ? std::nullopt : std::optional(options.words().front()), context);
}

void refuse_other_yarn(const Options& options) {
  for (const char* name : {"yarn", "whole"}) {
    if (options.has(name)) refuse(fmt::format("a project holds its own yarn: leave out --{}, or the project", name));
  }
}

std::vector<std::string> project_notes(const ProjectRead& read, const Tree& tree, const State& state) {
  std::vector<std::string> notes = read.notes;
  for (std::string& note : trouble_notes(tree, state.troubles)) notes.push_back(std::move(note));
  return notes;
}

OpenProject open_project(const std::string& path, const Context& context) {
  const Tree tree(read_document(context.disk, path, Tree::kMostBytes), path);
  ProjectRead read = read_project(tree);
  State state = fold(read.project);
  for (const std::string& note : project_notes(read, tree, state)) remark(context, note);
  return {path, std::move(read.project), std::move(state)};
}

OpenProject open_project(const Options& options, const Context& context) {
  return open_project(project_path(options, context), context);
}

Measures measures_of(const Options& options, const Project& project, const State& state) {
  Measures measures{state.ruler, Told::centimetres};
  if (state.ruler.in_stitches) {
    measures.told = Told::stitches;
    return measures;
  }
  const bool inches = choice(options, "units", project.units == Unit::in, {{"cm", false}, {"in", true}});
  if (options.has("units")) measures.ruler.bare = inches ? Unit::in : Unit::cm;
  measures.told = inches ? Told::inches : Told::centimetres;
  return measures;
}

Ruler ruler_on_record(Ruler ruler, const Project& project) {
  if (!ruler.in_stitches) ruler.bare = project.units;
  return ruler;
}

MatchOptions expected(const MatchOptions& match, const BallState& ball, BallEnd end) {
  MatchOptions options = match;
  options.worked = end == ball.from ? Worked::usual_end : Worked::other_end;
  if (ball.wound) options.wound = *ball.wound == Winding::mill ? Wound::mill : Wound::hand;
  return options;
}

}  // namespace ballchange
