#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "fabric/work.hpp"
#include "ledger/gauge.hpp"
#include "ledger/seen.hpp"

namespace ballchange {

// "row 12, stitch 3"; without a stitch the row alone.
[[nodiscard]] std::string place_text(const WorkPlace& place, Working working);

// Whether no stitch is left to do of the row it lies in, and so many rows are done.
[[nodiscard]] bool row_is_done(const WorkPlace& at, const Fabric& fabric);
[[nodiscard]] int rows_done(const std::optional<WorkPlace>& at, const Fabric& fabric);  // nothing: none is begun

// Throws Problem(content) that starts with `what`, "--seen", for what was seen past where the work stands (without a
// stitch: its row done), or beyond the stitches of a row. The next stitch shows its colour before it is made.
void refuse_not_worked(const Seen& seen, const WorkPlace& stands, const Fabric& fabric, std::string_view what);

}  // namespace ballchange
