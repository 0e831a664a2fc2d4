#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/project.hpp"
#include "ledger/state.hpp"
#include "show/check.hpp"
#include "show/creep.hpp"
#include "show/offcuts.hpp"
#include "show/paint.hpp"
#include "show/stock.hpp"
#include "show/text.hpp"

// A project's log and what it adds up to, for people, for tools and for spreadsheets.
namespace ballchange {

struct LogShown {
  const Project& project;
  const State& state;
  std::vector<std::size_t> entries;   // those to be shown, as indexes, oldest first
  const BallState* ball = nullptr;    // only what became of this one; otherwise of all
  const StockShown* stock = nullptr;  // where it can be told whether the yarn is enough
  const CreepShown* creep = nullptr;
  const OffcutsShown* offcuts = nullptr;
  bool only_offcuts = false;                     // nothing but those, which must then be there
  std::optional<ContestedShift> contested = {};  // then the shift told is one of two
  std::vector<const BallState*> unsettled = {};  // fresh balls whose end was read so that nothing is settled, as added
};

[[nodiscard]] std::string log_screen(const LogShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string log_json(const LogShown& shown);
// The entries as RFC 4180 has them, below a line of names: a column for every key of every kind.
[[nodiscard]] std::string log_csv(const LogShown& shown);
// Of each entry, what became of the join it records, "in-work"; nothing where it counts for none.
[[nodiscard]] std::string_view held_name(JoinHeld held);  // "in-work", as JSON and tables have it
[[nodiscard]] std::vector<std::optional<std::string_view>> joins_held(const LogShown& shown);

// One cell. A text that a spreadsheet would run as a formula gets an apostrophe in front, unless it is a number.
[[nodiscard]] std::string csv_text(std::string_view text);

// "used up", "in the work".
[[nodiscard]] std::string_view use_words(BallUse use);
// "1.86 m of 720 m": what was cut away so far, of what was bought; the first alone while that isn't known.
[[nodiscard]] std::string waste_words(const Totals& totals, Told told);
// What it was cut away for, in the order it is told in; what rounds to nothing is left out.
struct WasteCause {
  Length length;
  std::string_view words;  // "in the joins"
};
[[nodiscard]] std::vector<WasteCause> waste_causes(const Totals& totals, Told told);
// "1.86 m of 720 m bought, 0 %, about 74 g. 62 cm cut off to keep in step and 40 cm in the joins."
[[nodiscard]] std::string waste_in_full(const Totals& totals, Told told);
// "3, 1 of them ahead of the work; 1 knot left as it is."
[[nodiscard]] std::string joins_words(const State& state);
// "4 cm skipped, all joins together. 1 of 3 as counted in the work." Where a count bears out what is recorded, and that
// is told: "1 of 3 as recorded; counted so in the work."
[[nodiscard]] std::string running_shift_words(const State& state, Told told);
// "43 cm wide, 25.5 cm tall.", so far; with what it will be once washed, where that is known. Empty where it isn't.
[[nodiscard]] std::string size_words(const State& state, Told told);
// waste_words() as a line of a screen.
[[nodiscard]] std::string waste_line(const Totals& totals, Told told, std::size_t columns);

}  // namespace ballchange
