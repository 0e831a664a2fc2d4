#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/measure.hpp"
#include "files/yaml_tree.hpp"
#include "yarn/yarn.hpp"

// What a profile keeps of how it was learnt: measured: {before: [the repeat as it was told], strands: ["plum 15, sand
// 11", ...]}.
namespace ballchange {

struct KeptStrands {
  std::vector<std::string> texts;  // as they were written
  Unit bare = Unit::cm;            // what their numbers without a unit are
  std::optional<Repeat> before;    // known before any strand was measured
};

// Of a yarn's mapping, whose repeat is reckoned so. Throws Problem(content) with file and line.
[[nodiscard]] KeptStrands read_measured(Node yarn, Unit bare, Reckoning reckoning);
// Adds a note where that can't be read, as only `measure` needs it.
void note_odd_measured(Node yarn, Unit bare, Reckoning reckoning, std::vector<std::string>& notes);

}  // namespace ballchange
