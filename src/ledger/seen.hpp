#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/gauge.hpp"
#include "yarn/repeat.hpp"

// What a crafter saw in the work: where a colour fell, or how many stitches a joined section made.
namespace ballchange {

struct Seen {
  enum class What { begins, ends, counted };
  What what = What::begins;
  ColourId colour = 0;
  // begins: its first stitch; ends: its last one; without a stitch somewhere in that row. counted: a place near the
  // join, where it was told.
  std::optional<WorkPlace> place;
  double stitches = 0;  // counted: whole and half ones
  std::string text;     // as a log holds it, the colour's name in full: "row 120 stitch 14 navy begins"
};

// "row 120 stitch 14 navy begins", or ends; the stitch may be left out, the colour shortened to a unique beginning. Or
// "rust 41 stitches", which may begin with a row, too. Throws Problem(content) that starts with `what`, "--seen".
[[nodiscard]] Seen parse_seen(std::string_view text, const std::vector<Colour>& colours, std::string_view what);

}  // namespace ballchange
