#include "join/choice.hpp"

#include <utility>

namespace ballchange::joining {

Terms terms_in_force(const JoinWish& wish, const Fabric& fabric, Reckoning reckoning, bool felts) {
  Terms terms;
  terms.method = wish.method.value_or(Method::threaded);
  const MethodRow& row = method_row(terms.method);
  if (row.only_if_felts && !felts) {
    throw Lacking(Lacking::Fact::yarn_that_felts,
                  "method: this yarn is not known to felt, so a felted join would come apart; threaded holds in any "
                  "yarn");
  }
  const auto range = allowance_range(terms.method, reckoning, fabric.yarn_per_stitch);
  if (!range && !wish.allowance) {
    throw Lacking(Lacking::Fact::yarn_per_stitch,
                  "method: " + std::string(row.name) +
                      " is counted in stitches; tell the yarn per stitch, or the allowance as a length");
  }
  terms.allowance = wish.allowance ? *wish.allowance : range->usual;
  if (range && (terms.allowance < range->low || terms.allowance > range->high)) {
    terms.remarks.push_back(Remark::allowance_outside_range);
  }
  const Length two_stitches = fabric.yarn_per_stitch && reckoning == Reckoning::centimetres
                                  ? 2 * *fabric.yarn_per_stitch
                                  : habits(reckoning).usual_tolerance;
  terms.tolerance = wish.tolerance.value_or(two_stitches);
  return terms;
}

Advice advice_on(Terms terms, const JoinWish& wish) {
  Advice advice;
  advice.method = terms.method;
  advice.allowance = terms.allowance;
  advice.tolerance = terms.tolerance;
  advice.out_of_step = wish.out_of_step;
  advice.remarks = std::move(terms.remarks);
  return advice;
}

}  // namespace ballchange::joining
