#pragma once
#include <optional>

#include "measure/weigh.hpp"

namespace ballchange::measuring {

// The shortest circle round which a strand's colours come in the same order from its beginning to its end, three of
// them at least once more, whatever their lengths: what somebody may have meant who wrote one length down wrong. Each
// section has the lower middle one of its lengths. Nothing where more than a quarter of the lengths differ from that,
// or the colours are only two, which can't but take turns. Nothing of it is weighed.
[[nodiscard]] std::optional<Weighed> by_colours(const Line& line);
// Whether `whole` is that circle several times over, and nothing met twice tells its rounds apart: then they differ by
// what may as well be a slip.
[[nodiscard]] bool may_be_rounds_of(const Weighed& shorter, const Weighed& whole);

}  // namespace ballchange::measuring
