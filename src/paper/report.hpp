#pragma once
#include <optional>
#include <string>
#include <vector>

#include "paper/fabric.hpp"
#include "show/log.hpp"

// All that is known of a piece on one page.
namespace ballchange {

// A join with what led to it.
struct ReportJoin {
  const JoinState& join;
  const LogEntry& entry;
  std::string ends;  // where both ends lay: "the old end 30 cm into rust, the new one 77 cm into plum."; may be empty
  std::string picture;  // SVG; empty where the ends are not known
};

struct ReportShown {
  const LogShown& log;                  // all entries, with stock, creep and offcuts
  std::vector<ReportJoin> joins;        // in the order of the log
  std::optional<FabricOnPaper> fabric;  // where it can be drawn
  std::vector<std::string> notes;       // what was taken for granted there, or why it can't be drawn
};

// "Report, Harbour wrap".
[[nodiscard]] std::string report_title(const Project& project);
[[nodiscard]] std::string report_page(const ReportShown& shown, Told told);

}  // namespace ballchange
