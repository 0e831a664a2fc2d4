#include <fmt/core.h>

#include "base/number.hpp"
#include "reading/reading.hpp"

namespace ballchange {
namespace {

constexpr Length kHair = 1e-6_cm;

class Writer {
 public:
  Writer(const Reading& reading, const std::vector<Colour>& colours, const Ruler& ruler)
      : reading_(reading), colours_(colours), ruler_(ruler) {}

  std::string all() {
    const bool tell_hook = reading_.loose && can_write_worked();
    Length before;
    for (std::size_t i = 0; i < reading_.entries.size(); ++i) {
      const Entry& entry = reading_.entries[i];
      if (tell_hook && i == reading_.hook_entry) {
        hook(entry, *reading_.loose - before);
      } else {
        stretch(entry.colour, entry.length, tell_hook && i > reading_.hook_entry);
      }
      before += entry.length.value_or(Length());
    }
    if (tell_hook && reading_.hook_entry == reading_.entries.size()) add("hook");
    if (reading_.bar_at_open_end) out_ += " |";
    return (reading_.bar_at_loose_end ? "| " : "") + out_;
  }

 private:
  // A bare number can't stand for stitches where what one takes isn't known: a length is then written with its unit.
  [[nodiscard]] Unit lengths_in() const {
    const bool knows = ruler_.in_stitches || ruler_.yarn_per_stitch || ruler_.bare != Unit::st;
    return knows ? ruler_.bare : Unit::cm;
  }

  [[nodiscard]] bool all_in_stitches() const { return ruler_.in_stitches || lengths_in() == Unit::st; }

  // What is worked can be written in stitches only; without a yarn per stitch it can't be told when it has lengths.
  [[nodiscard]] bool can_write_worked() const {
    if (all_in_stitches() || ruler_.yarn_per_stitch) return true;
    for (std::size_t i = reading_.hook_entry; i < reading_.entries.size(); ++i) {
      if (reading_.entries[i].length) return false;
    }
    return true;
  }

  void add(std::string_view text) {
    if (!out_.empty()) out_ += ", ";
    out_ += text;
  }

  void stretch(ColourId colour, std::optional<Length> length, bool worked) {
    add(colours_[colour].name);
    if (!length) return;
    const bool stitches = worked && !all_in_stitches();
    const Unit unit = stitches ? Unit::st : lengths_in();
    out_ += fmt::format(" {}{}", plain_number(*length / unit_length(unit, ruler_), 4),
                        unit == ruler_.bare ? "" : unit_name(unit));
  }

  // The entry the hook stands in or before; `loose` of it is loose yarn.
  void hook(const Entry& entry, Length loose) {
    if (loose > kHair) stretch(entry.colour, loose, false);
    add("hook");
    if (!entry.length) {
      stretch(entry.colour, std::nullopt, true);
    } else if (loose <= kHair) {
      stretch(entry.colour, entry.length, true);
    } else {
      stretch(entry.colour, *entry.length - loose, true);
    }
  }

  const Reading& reading_;
  const std::vector<Colour>& colours_;
  const Ruler& ruler_;
  std::string out_;
};

}  // namespace

std::string format_reading(const Reading& reading, const std::vector<Colour>& colours, const Ruler& ruler) {
  return Writer(reading, colours, ruler).all();
}

}  // namespace ballchange
