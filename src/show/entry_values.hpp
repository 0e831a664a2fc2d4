#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "ledger/entry.hpp"
#include "ledger/state.hpp"
#include "show/json.hpp"

// Entries of a log and what it adds up to, for tools.
namespace ballchange {

// Lengths and masses are numbers, in what JSON counts; nothing stands for a length that can't be turned into it.
using EntryValue = std::variant<std::monostate, std::string, double, int, bool, std::vector<std::string>>;

// What the entry tells, under the keys of the log and in their order; what was not told is left out.
[[nodiscard]] std::vector<std::pair<std::string_view, EntryValue>> entry_values(const Did& what, const Ruler& ruler);

// Every key that some kind of entry has, each once.
[[nodiscard]] const std::vector<std::string_view>& entry_keys();

// Writes the members n, at, did and those above into an object that is open.
void entry_members(Json& json, const LogEntry& entry, const Ruler& ruler);
// Writes the object.
void totals_json(Json& json, const Totals& totals);

}  // namespace ballchange
