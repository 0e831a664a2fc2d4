#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/project.hpp"
#include "ledger/state.hpp"
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
  std::vector<const BallState*> unsettled = {};  // fresh balls whose end was read so that nothing is settled
};

[[nodiscard]] std::string log_screen(const LogShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string log_json(const LogShown& shown);
// The entries as RFC 4180 has them, below a line of names: a column for every key of every kind.
[[nodiscard]] std::string log_csv(const LogShown& shown);

// One cell. A text that a spreadsheet would run as a formula gets an apostrophe in front, unless it is a number.
[[nodiscard]] std::string csv_text(std::string_view text);

// "used up", "in the work".
[[nodiscard]] std::string_view use_words(BallUse use);
// "1.86 m of 720 m": what was cut away so far, of what was bought; the first alone while that isn't known.
[[nodiscard]] std::string waste_words(const Totals& totals, Told told);
// The same as a line of a screen.
[[nodiscard]] std::string waste_line(const Totals& totals, Told told, std::size_t columns);

}  // namespace ballchange
