#pragma once
#include <string>
#include <vector>

#include "files/yaml_tree.hpp"
#include "ledger/project.hpp"
#include "ledger/state.hpp"

// Project files: "format: ballchange project 1", a yarn, what is made of it, and the log, last.
namespace ballchange {

struct ProjectRead {
  Project project;
  std::vector<std::string> notes;  // "file:line:column: ...": keys that are not known, to be told once
};

// Throws Problem(content), "file:line:column: what; what would be right". A format with a newer number is refused.
// Whether the entries fit each other is the fold's to say.
[[nodiscard]] ProjectRead read_project(const Tree& tree);
[[nodiscard]] ProjectRead read_project(std::string text, const std::string& file);

// "file:line:column: entry 7: ball C was never added; ..." for the first few troubles, and how many more there are.
[[nodiscard]] std::vector<std::string> trouble_notes(const Tree& tree, const std::vector<Trouble>& troubles);

// A project's text with its log yet empty, which reads back as the same project without its entries.
[[nodiscard]] std::string write_project(const Project& project);

}  // namespace ballchange
