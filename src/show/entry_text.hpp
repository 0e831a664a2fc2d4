#pragma once
#include <cstddef>
#include <string>

#include "ledger/entry.hpp"
#include "ledger/state.hpp"
#include "show/text.hpp"

// Entries of a log and what it adds up to, for people.
namespace ballchange {

// What an entry tells, without its number and time: "ball B, 50.2 g, dye lot 17".
[[nodiscard]] std::string entry_words(const Did& what);

// "row 40", "row 40, stitch 12".
[[nodiscard]] std::string place_words(const WorkPlace& place);

// Where the work stands, the yarn on the ball in work and on all, as lines of a screen.
[[nodiscard]] std::string work_lines(const State& state, Told told, std::size_t columns);

}  // namespace ballchange
