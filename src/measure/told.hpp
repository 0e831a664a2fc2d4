#pragma once
#include <vector>

#include "measure/lengths.hpp"
#include "measure/propose.hpp"

// Circles that follow from what crafters know without measuring.
namespace ballchange::measuring {

// Whether so much of the total is more than a tape leaves open; cm.
[[nodiscard]] bool leaves_open(double missing, double total);

// Its total length is known, in cm (stitches where the yarn is reckoned in them): the strand is one whole repeat,
// however much of the colour at both its ends is missing.
[[nodiscard]] std::vector<Circle> of_total(const Line& line, double total);

// The yarn turns back on itself, as a hank dyed across the loop does: there and back between two sections of the
// strand. `total` as above.
[[nodiscard]] std::vector<Circle> there_and_back(const Line& line, double total);
// The sections of such a circle that are one and the same.
[[nodiscard]] std::vector<std::size_t> mirrored_pairs(std::size_t size);

// Weighing gives a section the name that most of its entries bear: in a mirror that is not one, two different names.
[[nodiscard]] bool same_colours(const Circle& circle, const std::vector<std::size_t>& same_as);

}  // namespace ballchange::measuring
