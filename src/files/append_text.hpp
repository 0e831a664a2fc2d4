#pragma once
#include <string>
#include <vector>

#include "files/yaml_tree.hpp"

// A project's text, whose last key is its log, with entries added at the end of it.
namespace ballchange {

// The text with `entries`, each a mapping in braces on one line ("{n: 4, did: row, row: 12}"), as the log's last items.
// Every byte of the text stays as it is, but that "log: []" is opened and a missing last line end is added; the entries
// take the text's own line ends and the log's own indent. `before` is the text parsed. The outcome is parsed again and
// compared: it holds what it held before and the entries, nothing else. Throws Problem(content) with the line to be
// changed where that can't be had.
[[nodiscard]] std::string add_entries(const std::string& text, const Tree& before,
                                      const std::vector<std::string>& entries);

}  // namespace ballchange
