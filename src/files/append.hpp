#pragma once
#include <functional>
#include <string>
#include <vector>

#include "files/append_file.hpp"
#include "files/lock.hpp"
#include "files/yaml_tree.hpp"

// Recording in a project. The order of things for a command that asks: read the project, ask with nothing locked, then
// append, which locks, reads again and lets `make` look at what the project holds by now.
namespace ballchange {

// What is to be recorded, from the project as it stands with the lock held: entries as add_entries takes them, none to
// leave the file alone. Must not ask anything; what it throws leaves the file as it was. The tree lives as long as the
// call.
using MakeEntries = std::function<std::vector<std::string>(const std::string& text, const Tree& tree)>;

struct Appended {
  std::string text;  // what the project holds now
  Remarks remarks;   // to be told, each a line
};

// Adds entries to the log of the project at `path`, all or none. Throws Problem(file) when the file can't be opened,
// locked or written, Problem(content) with the line where it can't be read or added to; then it holds what it held.
[[nodiscard]] Appended append(Disk& disk, const std::string& path, const Patience& patience, const MakeEntries& make);

// A new project. Throws Problem(file) where something bears that name already.
[[nodiscard]] Remarks start_file(Disk& disk, const std::string& path, const Patience& patience,
                                 const std::string& text);

}  // namespace ballchange
