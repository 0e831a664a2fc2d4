#include "ledger/worked.hpp"

#include <fmt/core.h>

#include <climits>

#include "base/problem.hpp"

namespace ballchange {

std::string place_text(const WorkPlace& place, Working working) {
  if (!place.stitch) return fmt::format("{} {}", row_word(working), place.row);
  return fmt::format("{} {}, stitch {}", row_word(working), place.row, *place.stitch);
}

bool row_is_done(const WorkPlace& at, const Fabric& fabric) {
  return !at.stitch || (fabric.stitches && *at.stitch >= *fabric.stitches);
}

int rows_done(const std::optional<WorkPlace>& at, const Fabric& fabric) {
  if (!at) return 0;
  return row_is_done(*at, fabric) ? at->row : at->row - 1;
}

void refuse_not_worked(const Seen& seen, const WorkPlace& stands, const Fabric& fabric, std::string_view what) {
  if (!seen.place) return;
  const WorkPlace& place = *seen.place;
  const std::string_view row = row_word(fabric.working);
  if (fabric.stitches && place.stitch.value_or(0) > *fabric.stitches) {
    throw Problem(Fault::content, fmt::format("{}: stitch {} of a {} of {}; write 1 to {}", what, *place.stitch, row,
                                              *fabric.stitches, *fabric.stitches));
  }
  const int shows = stands.stitch.value_or(INT_MAX - 1) + (seen.what == Seen::What::begins ? 1 : 0);
  const bool ahead = place.row > stands.row ||
                     (place.row == stands.row && (place.stitch ? *place.stitch > shows : stands.stitch == 0));
  if (!ahead) return;
  throw Problem(Fault::content, fmt::format("{}: {} is not worked yet: the work stands at {}", what,
                                            place_text(place, fabric.working), place_text(stands, fabric.working)));
}

}  // namespace ballchange
