#pragma once
#include <vector>

#include "paper/report.hpp"
#include "project/project.hpp"

namespace ballchange {

// The joins of a project as its log tells them, with where both ends lay by their readings. What was cancelled is not
// among them; what a file edited by hand may hold that is no reading counts as not read. `open` must outlive it.
[[nodiscard]] std::vector<ReportJoin> report_joins(const OpenProject& open, Told told);

}  // namespace ballchange
