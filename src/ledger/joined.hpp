#pragma once
#include <optional>
#include <vector>

#include "reading/reading.hpp"

// Which section a join lies in, by the reading of the old end it was made with.
namespace ballchange {

struct JoinedSection {
  ColourId colour = 0;         // of the join's middle
  std::optional<Length> into;  // from that section's beginning to the middle; not known where the reading ends in it
  std::vector<ColourId> may_seem;  // all that the eye may take the join to lie in: its own, and others close by
};
// `middle`: yarn from the loose end to the join's middle, so the trim and half the allowance. A colour whose change
// lies within `near` of it is close by. Nothing where the reading doesn't reach there, or not with its lengths.
[[nodiscard]] std::optional<JoinedSection> joined_section(const Reading& old_end, const Repeat& repeat, Length middle,
                                                          Length near);

}  // namespace ballchange
