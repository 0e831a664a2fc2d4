#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "fuzz/require.hpp"
#include "reading/reading.hpp"

// Any text as a reading, on either end and by several rulers: refused in printable words, or written down and read
// back as the same reading.
namespace {

using namespace ballchange;

Palette palette(bool open) {
  Palette palette{{}, open};
  for (const char* name : {"plum", "plum red", "sand", "rust", "\u00c9cru", "hooked"}) {
    palette.colours.push_back({name, std::nullopt});
  }
  return palette;
}

Ruler ruler(unsigned kind) {
  switch (kind % 4) {
    case 0:
      return {Unit::cm, std::nullopt, false};
    case 1:
      return {Unit::cm, 1.85_cm, false};
    case 2:
      return {Unit::in, 1.85_cm, false};
    default:
      return {Unit::st, std::nullopt, true};
  }
}

void require_same(const Reading& a, const Reading& b) {
  require(a.entries.size() == b.entries.size(), "as many entries");
  require(a.bar_at_loose_end == b.bar_at_loose_end && a.bar_at_open_end == b.bar_at_open_end, "the same bars");
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    const Entry& x = a.entries[i];
    const Entry& y = b.entries[i];
    require(x.colour == y.colour && x.length.has_value() == y.length.has_value(), "the same entry");
    // Two parts of an entry, each to four decimals of a unit up to 2.54 cm.
    if (x.length) require(std::abs((*x.length - *y.length).cm()) < 3e-4, "the same length");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const unsigned kind = data[0];
  const std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
  const End end = kind & 4U ? End::old_end : End::new_end;
  const Ruler by = ruler(kind);
  Palette colours = palette((kind & 8U) != 0);
  Reading reading;
  try {
    reading = parse_reading(text, end, colours, by, "reading");
  } catch (const Problem& problem) {
    const std::string_view message = problem.what();
    require(message.starts_with("reading"), "a refusal begins with what was read");
    require(printable(message, 5000) == message, "a refusal is printable");
    for (const std::string& line : problem.shown()) require(display_width(line) <= 77, "a line shown is short");
    return 0;
  }
  require(!reading.entries.empty(), "a reading has entries");
  const std::string written = format_reading(reading, colours.colours, by);
  Palette same = colours;
  const Reading again = parse_reading(written, end, same, by, "reading");
  require_same(reading, again);
  return 0;
}
