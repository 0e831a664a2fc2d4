#pragma once
#include <set>
#include <string>
#include <vector>

#include "files/yaml_tree.hpp"
#include "ledger/entry.hpp"

// Entries of a project's log, as they stand in its file.
namespace ballchange {

// A mapping on one line, without a line end: {n: 1, at: 2026-03-02T19:20:00Z, did: ball, ball: A}. Numbers to four
// decimals; texts trimmed. Throws Problem(content) for a text that a log can't hold.
[[nodiscard]] std::string entry_text(const LogEntry& entry);

// Keys that are not known, each told once however often it stands there.
struct UnknownKeys {
  std::vector<std::string> notes;
  std::set<std::string, std::less<>> told;
};

// The entry that must be number n. `bare` is the unit of a length without one. Throws Problem(content) with file and
// line.
[[nodiscard]] LogEntry read_entry(Node node, int n, Unit bare, UnknownKeys& unknown);

}  // namespace ballchange
