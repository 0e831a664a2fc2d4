#pragma once
#include "yarn/yarn.hpp"

namespace ballchange {

// A yarn written in stitches, in centimetres: `stitch` is the yarn in one.
[[nodiscard]] Yarn in_centimetres(Yarn yarn, Length stitch);

}  // namespace ballchange
