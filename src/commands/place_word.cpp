#include "commands/place_word.hpp"

#include <fmt/format.h>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "reading/reading.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

template <typename... Args>
[[noreturn]] void refuse(fmt::format_string<Args...> why, Args&&... args) {
  throw Problem(Fault::content, fmt::format(why, std::forward<Args>(args)...));
}

std::string told(Length length, const Ruler& ruler) {
  if (ruler.in_stitches) return tape(length, Told::stitches);
  const bool inches = ruler.bare == Unit::in || ruler.bare == Unit::ft || ruler.bare == Unit::yd;
  return amount(length, inches ? Told::inches : Told::centimetres);
}

// The one section of that colour.
std::size_t section_of(ColourId colour, const Repeat& repeat, std::string_view text, std::string_view what) {
  std::optional<std::size_t> found;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    if (repeat.sections()[k].colour != colour) continue;
    if (found) {
      refuse(
          "{}: '{}' could be in more than one section, as {} comes more than once in this yarn; tell the length from "
          "the start of the first section ({}) instead",
          what, printable(text, 40), printable(repeat.colours()[colour].name), printable(repeat.name_of(0)));
    }
    found = k;
  }
  if (!found) refuse("{}: this yarn has no {}", what, printable(repeat.colours()[colour].name));
  return *found;
}

}  // namespace

Length parse_place(std::string_view text, const Repeat& repeat, const Ruler& ruler, std::string_view what) {
  const std::string_view word = trim(text);
  if (!word.empty() && word.front() >= '0' && word.front() <= '9') {
    const Length place = parse_length(word, ruler, what);
    if (place > repeat.total()) refuse("{}: the whole repeat is {} long", what, told(repeat.total(), ruler));
    return wrap(place, repeat.total());
  }
  Palette palette{repeat.colours(), false};
  const Reading reading = parse_reading(word, End::new_end, palette, ruler, what);
  if (reading.entries.size() != 1 || reading.bar_at_loose_end || reading.bar_at_open_end) {
    refuse("{}: '{}' is not one place; tell a colour and how far into it, as in \"{} 26\"", what, printable(text, 40),
           printable(repeat.name_of(0)));
  }
  const Entry& entry = reading.entries.front();
  const std::size_t section = section_of(entry.colour, repeat, text, what);
  const Length into = entry.length.value_or(Length());
  const Length whole = repeat.sections()[section].length;
  if (into > whole) {
    refuse("{}: {} is {} long, so no place in it is {} from its start", what, printable(repeat.name_of(section)),
           told(whole, ruler), told(into, ruler));
  }
  return wrap(repeat.start(section) + into, repeat.total());
}

}  // namespace ballchange
