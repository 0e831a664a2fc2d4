#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "files/append.hpp"

// Records entries in a project, as a command would: `append_probe FILE WHO COUNT`. Each gets the number after the last
// one there. 0: all recorded; 1 and 2: as the program ends with a Problem.
namespace {

using namespace ballchange;

std::string next_entry(const Tree& tree, const std::string& who, int mine) {
  std::size_t last = 0;
  const auto log = tree.root().find("log");
  if (log && log->is(Node::Kind::sequence)) last = log->size();
  return fmt::format("{{n: {}, did: note, text: {} {}}}", last + 1, who, mine);
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 4) return 64;
  const std::string path = arguments[1];
  const std::string who = arguments[2];
  const int times = std::atoi(arguments[3]);
  RealDisk disk;
  SystemStopwatch watch;
  const Patience patience{watch, [] { std::puts("waiting"); }};
  try {
    for (int mine = 1; mine <= times; ++mine) {
      const Appended done = append(disk, path, patience, [&](const std::string&, const Tree& tree) {
        return std::vector<std::string>{next_entry(tree, who, mine)};
      });
      for (const std::string& remark : done.remarks) std::puts(remark.c_str());
    }
  } catch (const Problem& problem) {
    std::fprintf(stderr, "%s\n", problem.what());
    return problem.fault() == Fault::file ? 1 : 2;
  }
  return 0;
}
