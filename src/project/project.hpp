#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "files/project.hpp"
#include "ledger/project.hpp"
#include "ledger/state.hpp"

// The project a command works on.
namespace ballchange {

// Whether a file so named may be a project: wrap.yaml, wrap.yml.
[[nodiscard]] bool is_project_name(std::string_view name);
// The first word of the command line, "harbour.yaml" or "harbour"; without one, the only project file in the folder.
// Throws Problem(file) for a file that isn't there, and Problem(content) for a word that is no file's name, for several
// project files in the folder and for none.
[[nodiscard]] std::string project_path(const std::optional<std::string>& word, const Context& context);
[[nodiscard]] std::string project_path(const Options& options, const Context& context);
// The file a word names, whether or not it says .yaml; nothing: there is none.
[[nodiscard]] std::optional<std::string> find_project(const std::string& word, const Context& context);
// The project files of this folder, by their first lines; after them those that can't be opened.
[[nodiscard]] std::vector<std::string> project_files(const Context& context);

// For a command on a project, which holds its own yarn. Throws Problem(content) where an option tells one.
void refuse_other_yarn(const Options& options);

struct OpenProject {
  std::string path;  // as people name it
  Project project;
  State state;  // what the log adds up to
};

// Reads and folds, and complains of keys that are not known and of entries that don't fit. Nothing is locked: what is
// recorded later is checked against the project as it stands then. Throws Problem(file) or Problem(content).
[[nodiscard]] OpenProject open_project(const std::string& path, const Context& context);
[[nodiscard]] OpenProject open_project(const Options& options, const Context& context);

// The complaints of opening a project.
[[nodiscard]] std::vector<std::string> project_notes(const ProjectRead& read, const Tree& tree, const State& state);

// What bare numbers mean (the project's unit, unless --units says otherwise), how long a stitch is by the gauge in
// force, and what answers are told in.
[[nodiscard]] Measures measures_of(const Options& options, const Project& project, const State& state);

// How a reading on record is to be read: in the project's own unit, whatever --units has answers told in.
[[nodiscard]] Ruler ruler_on_record(Ruler ruler, const Project& project);

// How a reading of that end is to be placed: read inward from the end it is worked from, a ball shows its colours in
// working order, from its other end the other way round.
[[nodiscard]] MatchOptions expected(const MatchOptions& match, const BallState& ball, BallEnd end);

}  // namespace ballchange
