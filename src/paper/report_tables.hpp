#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "paper/page.hpp"
#include "paper/report.hpp"
#include "show/entry_text.hpp"

// Parts of the report, in the ledger's own words.
namespace ballchange {

struct ReportFact {
  std::string label, words;
};

// What to do before the ball in work ends, as lines of a screen nothing of which is wrapped; may be empty.
[[nodiscard]] std::string next_lines(const StockShown& stock, Told told);
// "All 290 rows planned are worked, and 10 rows more."; empty where rows are still to come, or how many isn't known.
[[nodiscard]] std::string all_worked(const Project& project, const State& state);
[[nodiscard]] std::vector<ReportFact> piece_facts(const Project& project, const State& state, Told told);
[[nodiscard]] PageTable repeat_table(const Yarn& yarn, Told told);
// One repeat as a bar with its letters.
[[nodiscard]] std::string repeat_bar(const Yarn& yarn, Told told);
[[nodiscard]] PageTable ball_table(const LeftShown& left, Told told);
// "Ball A to ball B, row 30, stitch 40".
[[nodiscard]] std::string join_title(const ReportJoin& join, Working working);
[[nodiscard]] std::vector<ReportFact> join_facts(const ReportJoin& shown, const State& state, Unit units, Told told);
[[nodiscard]] PageTable waste_table(const Totals& totals, Told told);

}  // namespace ballchange
