#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.hpp"
#include "base/measure.hpp"
#include "yarn/repeat.hpp"

// Colours with lengths, written down along a strand from its loose end inward.
namespace ballchange {

enum class End { old_end, new_end };

// The longest text of a reading, wherever it comes from: 1,000 entries of the longest names fit.
inline constexpr std::size_t kMostReadingBytes = std::size_t{256} << 10U;

// One entry: a stretch under one written name. Neighbouring entries differ in colour (written ones of one colour are
// added up).
struct Entry {
  ColourId colour = 0;
  std::optional<Length> length;  // unknown when left out
  double rounding_variance = 0;  // cm^2: step^2/12 of each written part
  std::size_t written_as = 1;    // its first entry in the text, from 1
};

struct Reading {
  End end = End::new_end;
  std::vector<Entry> entries;     // never empty
  bool bar_at_loose_end = false;  // a change is seen right at the loose end
  bool bar_at_open_end = false;   // the last entry is whole
  // Old strand only: yarn from hook to loose end when `hook` or stitches tell it; unknown otherwise.
  std::optional<Length> loose;
  std::size_t hook_entry = 0;  // with `loose`: the entry the hook stands in or before (entries.size(): all loose)
  // The hook was told, but `loose` is not known: the last colour before it that came without a length.
  std::optional<ColourId> unmeasured_to_hook;

  // Sum of the lengths written down, all of it (loose and worked).
  [[nodiscard]] Length measured() const;
};

// What colours a reading may name.
struct Palette {
  std::vector<Colour> colours;
  bool open = false;      // names not listed are added as they come
  std::size_t known = 0;  // of an open one: the first so many may be shortened, those that came later not
};

// Parses a reading. Throws Problem(content): what, "entry 2" or position, what would be right, then the text and a
// caret. Names are shortened to a unique beginning, an exact name winning, case ignored. With an open palette new names
// are appended to it. At most 1,000 entries in kMostReadingBytes.
[[nodiscard]] Reading parse_reading(std::string_view text, End end, Palette& palette, const Ruler& ruler,
                                    std::string_view what);
// Back to text, as parse_reading with the same ruler reads it, to four decimals: "plum 15, sand 11, rust 30" in the
// ruler's bare unit, what is worked in st. Lengths already worked need the yarn per stitch: without it all is written
// as loose yarn, and where the hook is goes untold.
[[nodiscard]] std::string format_reading(const Reading& reading, const std::vector<Colour>& colours,
                                         const Ruler& ruler = {});

}  // namespace ballchange
