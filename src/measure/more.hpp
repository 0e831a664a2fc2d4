#pragma once
#include <optional>
#include <vector>

#include "measure/circle.hpp"
#include "reading/reading.hpp"

// A strand whose first colours have come again, but not far enough to be believed: how it will go on, if they did not
// by chance.
namespace ballchange::measuring {

// The least number of entries after which all colours of the line come again in order, though it may be but the first;
// nothing where none does. At least two.
[[nodiscard]] std::optional<std::size_t> begun_again(const Line& line);

// The line gone on with, until it has come round once more: each time to a little beyond the next change.
struct GoneOn {
  std::vector<matching::Measured> entries;
  double more = 0;  // cm beyond where it stopped
};
// `size` as of begun_again; nothing where a length of the line was left out, but for the last. Sections that come again
// are a little longer or shorter than before, as they usually are.
[[nodiscard]] std::vector<GoneOn> gone_on(const Line& line, std::size_t size, double little);

// The colour whose length was written down nowhere, in a line whose colours have come round; nothing where all were.
[[nodiscard]] std::optional<ColourId> unmeasured_in(const Line& line);

}  // namespace ballchange::measuring
