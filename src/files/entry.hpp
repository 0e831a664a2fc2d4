#pragma once
#include <set>
#include <string>
#include <vector>

#include "files/yaml_tree.hpp"
#include "ledger/entry.hpp"

// Entries of a project's log, as they stand in its file.
namespace ballchange {

// A mapping on one line, without a line end: {n: 1, at: 2026-03-02T19:20:00Z, did: ball, ball: A}. Numbers to four
// decimals; texts trimmed. Throws Problem(content) for a text that a log can't hold, and for a number of which nothing
// would be left.
[[nodiscard]] std::string entry_text(const LogEntry& entry);

struct EntryWritten {
  std::string text;
  LogEntry entry;  // as the file will say it
};
// The text of an entry, read back. Throws Problem(content) where the file's own reader would refuse it or take it for
// another: such a text must never be written, since no command could read the project after it.
[[nodiscard]] EntryWritten written_entry(const LogEntry& entry, Unit bare);

// Keys that are not known, each told once however often it stands there.
struct UnknownKeys {
  std::vector<std::string> notes;
  std::set<std::string, std::less<>> told;
};

// The entry that must be number n. `bare` is the unit of a length without one. Throws Problem(content) with file and
// line.
[[nodiscard]] LogEntry read_entry(Node node, int n, Unit bare, UnknownKeys& unknown);

}  // namespace ballchange
