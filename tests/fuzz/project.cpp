#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "files/append_text.hpp"
#include "files/entry.hpp"
#include "files/project.hpp"
#include "fuzz/require.hpp"
#include "ledger/fold.hpp"

namespace {

using namespace ballchange;

// What is read, written down anew, entry by entry.
std::string written(const Project& project) {
  std::string text = write_project(project);
  std::vector<std::string> entries;
  for (const LogEntry& entry : project.entries) entries.push_back(entry_text(entry));
  return entries.empty() ? text : add_entries(text, Tree(text, "written.yaml"), entries);
}

void check_fold(const Tree& tree, const Project& project) {
  const State state = fold(project);
  for (const std::string& note : trouble_notes(tree, state.troubles)) require(!note.empty(), "a note says something");
  require(state.cancelled.size() == project.entries.size(), "of each entry it is told whether it is cancelled");
  require(!state.working || *state.working < state.balls.size(), "the ball in the work is one that was added");
  for (const BallState& ball : state.balls)
    require(!ball.left || *ball.left >= Length(), "no ball has less than nothing");
  (void)check_next(project, state, did::Row{12, {}, {}});
}

}  // namespace

// Any text as a project: refused with its place, or folded, written down and read back as the same.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string once;
  try {
    const Tree tree(std::string(reinterpret_cast<const char*>(data), size), "wrap.yaml");
    const ProjectRead read = read_project(tree);
    for (const std::string& note : read.notes) require(note.starts_with("wrap.yaml:"), "a note has its place");
    check_fold(tree, read.project);
    once = written(read.project);
  } catch (const Problem& problem) {
    require(std::string_view(problem.what()).starts_with("wrap.yaml:"), "a refusal begins with the place");
    return 0;
  }
  const ProjectRead again = read_project(once, "written.yaml");
  require(again.notes.empty(), "what is written is all known");
  require(written(again.project) == once, "what is written reads back as the same project");
  return 0;
}
