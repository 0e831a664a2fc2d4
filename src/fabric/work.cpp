#include "fabric/work.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace ballchange {

namespace {

// Whole, and no further than an int holds beside whatever it is added to.
int counted_on(double number) {
  constexpr double most = 1e9;
  return static_cast<int>(std::clamp(std::round(number), -most, most));
}

}  // namespace

RowStitch landing(const Fabric& fabric, RowStitch hook, Length yarn) {
  assert(fabric.yarn_per_stitch);
  const Length per_stitch = *fabric.yarn_per_stitch;
  if (!fabric.stitches) {
    return {hook.row, std::max(1, hook.stitch + counted_on(yarn / per_stitch))};
  }
  const int stitches = *fabric.stitches;
  const Length row = stitches * per_stitch + fabric.yarn_per_turn;
  const Length from_row_start = hook.stitch * per_stitch + yarn;
  const double rows = std::floor(std::max(0.0, from_row_start / row));
  const int stitch = counted_on((from_row_start - rows * row) / per_stitch);
  return {hook.row + counted_on(rows), std::clamp(stitch, 1, stitches)};
}

namespace {

Length row_of(const Fabric& fabric) { return *fabric.stitches * *fabric.yarn_per_stitch + fabric.yarn_per_turn; }

// From the beginning of a row on.
double stitches_done(const Fabric& fabric, Length yarn) {
  const Length row = row_of(fabric);
  const double rows = std::floor(yarn / row);
  return rows * *fabric.stitches + std::min((yarn - rows * row) / *fabric.yarn_per_stitch, 1.0 * *fabric.stitches);
}

}  // namespace

double stitches_made(const Fabric& fabric, Length from, Length yarn) {
  assert(fabric.yarn_per_stitch && fabric.stitches);
  return stitches_done(fabric, from + yarn) - stitches_done(fabric, from);
}

Length yarn_made(const Fabric& fabric, Length from, double stitches) {
  assert(fabric.yarn_per_stitch && fabric.stitches);
  constexpr double hair = 1e-9;  // a row that is just finished needs no turn yet
  const double in_all = stitches_done(fabric, from) + stitches;
  const double rows = std::ceil(in_all / *fabric.stitches - hair) - 1;
  return rows * row_of(fabric) + (in_all - rows * *fabric.stitches) * *fabric.yarn_per_stitch - from;
}

}  // namespace ballchange
