#include "join/choice.hpp"

namespace ballchange::joining {

Advice choose(const JoinWish& wish, const Fabric& fabric, Reckoning reckoning, bool felts) {
  Advice advice;
  advice.method = wish.method.value_or(Method::threaded);
  const MethodRow& row = method_row(advice.method);
  if (row.only_if_felts && !felts) {
    throw Lacking(Lacking::Fact::yarn_that_felts,
                  "method: this yarn is not known to felt, so a felted join would come apart; threaded holds in any "
                  "yarn");
  }
  const auto range = allowance_range(advice.method, reckoning, fabric.yarn_per_stitch);
  if (!range && !wish.allowance) {
    throw Lacking(Lacking::Fact::yarn_per_stitch,
                  "method: " + std::string(row.name) +
                      " is counted in stitches; tell the yarn per stitch, or the allowance as a length");
  }
  advice.allowance = wish.allowance ? *wish.allowance : range->usual;
  if (range && (advice.allowance < range->low || advice.allowance > range->high)) {
    advice.remarks.push_back(Remark::allowance_outside_range);
  }
  const Length two_stitches = fabric.yarn_per_stitch && reckoning == Reckoning::centimetres
                                  ? 2 * *fabric.yarn_per_stitch
                                  : habits(reckoning).usual_tolerance;
  advice.tolerance = wish.tolerance.value_or(two_stitches);
  advice.out_of_step = wish.out_of_step;
  return advice;
}

}  // namespace ballchange::joining
