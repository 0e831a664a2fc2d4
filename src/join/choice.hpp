#pragma once
#include "join/advice.hpp"

namespace ballchange::joining {

// Method, allowance and tolerance in force: what was told, otherwise the usual. Throws Lacking for felting a yarn that
// does not felt and for a method counted in stitches whose allowance can't be known.
[[nodiscard]] Advice choose(const JoinWish& wish, const Fabric& fabric, Reckoning reckoning, bool felts);

}  // namespace ballchange::joining
