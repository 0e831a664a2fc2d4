#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "ledger/gauge.hpp"
#include "yarn/repeat.hpp"

namespace ballchange {

// Where a colour really fell.
struct Seen {
  WorkPlace place;
  ColourId colour = 0;
  bool begins = true;
  std::string text;  // as a log holds it, the colour's name in full: "row 120 stitch 14 navy begins"
};

// "row 120 stitch 14 navy begins", or ends; the stitch may be left out, the colour shortened to a unique beginning.
// Throws Problem(content) that starts with "--seen".
[[nodiscard]] Seen parse_seen(std::string_view text, const std::vector<Colour>& colours);

}  // namespace ballchange
