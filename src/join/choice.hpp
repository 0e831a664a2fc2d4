#pragma once
#include <vector>

#include "join/advice.hpp"

namespace ballchange::joining {

struct Terms {
  Method method = Method::threaded;
  Length allowance, tolerance;
  std::vector<Remark> remarks;
};

// What was told, otherwise the usual. Throws Lacking for felting a yarn that does not felt and for a method counted in
// stitches whose allowance can't be known.
[[nodiscard]] Terms terms_in_force(const JoinWish& wish, const Fabric& fabric, Reckoning reckoning, bool felts);

// An advice with nothing in it yet but its terms.
[[nodiscard]] Advice advice_on(Terms terms, const JoinWish& wish);

}  // namespace ballchange::joining
