#pragma once
#include <utility>

#include "match/place.hpp"
#include "reading/reading.hpp"
#include "yarn/yarn.hpp"

// The example yarn of the manual, and ends read on it.
namespace ballchange {

inline Yarn orchard() {
  return {.name = "Orchard",
          .fibre = "wool",
          .felts = true,
          .ball_mass = {},
          .ball_length = {},
          .repeat = Repeat({{"plum", Shade{0x5b, 0x2a, 0x59}},
                            {"sand", Shade{0xc9, 0xb4, 0x8f}},
                            {"rust", Shade{0xa5, 0x49, 0x2a}},
                            {"moss", Shade{0x5d, 0x6b, 0x3a}},
                            {"navy", Shade{0x1f, 0x2d, 0x4d}},
                            {"grey", Shade{0x8d, 0x90, 0x96}}},
                           {{0, 92_cm, 6_cm},
                            {1, 11_cm, 1.5_cm},
                            {2, 80_cm, 5_cm},
                            {3, 14_cm, 2_cm},
                            {4, 70_cm, 5_cm},
                            {5, 9_cm, 1_cm}})};
}

inline Reading read_on(const Yarn& yarn, End end, std::string_view text) {
  Palette palette{yarn.repeat.colours(), false};
  return parse_reading(text, end, palette, {}, end == End::old_end ? "--old" : "--new");
}

}  // namespace ballchange
