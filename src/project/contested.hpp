#pragma once
#include <optional>

#include "ledger/state.hpp"
#include "show/check.hpp"

namespace ballchange {

// How far the work is out of step by counted stitches, where by the scale, or by a gauge told since, a stitch takes
// plainly more or less yarn than it was counted with, and that is another answer; nothing where both say the same.
[[nodiscard]] std::optional<ContestedShift> contested_shift(const State& state);

}  // namespace ballchange
