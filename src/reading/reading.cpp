#include "reading/reading.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "reading/part.hpp"

namespace ballchange {
namespace {

constexpr Length kMostOfOneEntry = 500'000_cm;
constexpr Length kLeastOfOneEntry = 0.001_cm;

// Whether a length in stitches is one already worked; where everything is counted in stitches only `hook` tells.
bool stitches_tell(End end, const Ruler& ruler) {
  return end == End::old_end && !ruler.in_stitches && ruler.bare != Unit::st;
}

// Sets the bars of the reading; a bar or plus anywhere but at its end is refused.
void read_marks(const Source& source, const std::vector<Part>& parts, Reading& reading) {
  const bool hook_last = parts.back().is_hook;
  const std::size_t last = parts.size() - (hook_last ? 2 : 1);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Part& part = parts[i];
    if ((part.bar_before && i > 0) || (part.bar_after && i < last)) {
      source.refuse_at(part.number, part.bar_before ? *part.bar_before : *part.bar_after,
                       "a bar tells of a change right at an end: write it first or last, or not at all");
    }
    if (part.plus && i != last) {
      source.refuse_at(part.number, *part.plus,
                       "'+' tells where measuring stopped: write it after the last length, or not at all");
    }
    if (part.bar_before) reading.bar_at_loose_end = true;
    if (part.bar_after) reading.bar_at_open_end = true;
  }
  if (parts[last].plus && reading.bar_at_open_end) {
    source.refuse_at(parts[last].number, *parts[last].plus,
                     "'+' says the colour goes on, '|' that it ends here: write one of them");
  }
}

// Takes `hook` out; its place among the parts that stay, if it was there.
std::optional<std::size_t> take_hook(const Source& source, End end, std::vector<Part>& parts) {
  std::optional<std::size_t> hook;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (!parts[i].is_hook) continue;
    if (end == End::new_end) {
      source.refuse_at(parts[i].number, parts[i].at, "hook belongs to the old strand: leave it out on the new one");
    }
    if (hook)
      source.refuse_at(parts[i].number, parts[i].at, "hook stands here twice: write it once, where the hook is");
    hook = i;
  }
  std::erase_if(parts, [](const Part& part) { return part.is_hook; });
  return hook;
}

// The first part that is already worked, when `hook` or stitches tell.
std::optional<std::size_t> first_worked(const Source& source, const std::vector<Part>& parts,
                                        std::optional<std::size_t> hook) {
  std::optional<std::size_t> first = hook;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Part& part = parts[i];
    if (!part.written) continue;
    const bool worked = part.written->unit == Unit::st;
    if (worked && hook && i < *hook) {
      source.refuse_at(part.number, part.length_at,
                       "stitches are already worked, so they come after hook: write loose yarn in cm or in");
    }
    if (!worked && first && i >= *first) {
      source.refuse_at(part.number, part.length_at,
                       hook ? "after hook comes what is already worked: write it in st"
                            : "loose yarn after stitches already worked: write it in st, or before them");
    }
    if (worked && !first) first = i;
  }
  return first;
}

[[noreturn]] void refuse_too_short(const Source& source, const Part& part, bool alone, const Ruler& ruler) {
  std::string_view why = "a length of 0: leave the entry out, and write | for a change right at an end";
  if (part.written->number > 0) {
    why = ruler.in_stitches ? "shorter than 0.001 st: check the number" : "shorter than 0.01 mm: check number and unit";
  } else if (alone) {
    why = "a length of 0: write how long it is";
  }
  source.refuse_at(part.number, part.length_at, why);
}

std::vector<std::optional<Length>> lengths_of(const Source& source, const std::vector<Part>& parts,
                                              const Ruler& ruler) {
  std::vector<std::optional<Length>> lengths;
  lengths.reserve(parts.size());
  for (const Part& part : parts) {
    if (!part.written) {
      lengths.emplace_back();
      continue;
    }
    const Length length = source.pointing(
        part.number, part.length_at, [&](const std::string& where) { return to_length(*part.written, ruler, where); });
    if (length < kLeastOfOneEntry) refuse_too_short(source, part, parts.size() == 1, ruler);
    if (length > kMostOfOneEntry) {
      source.refuse_at(part.number, part.length_at,
                       fmt::format("too long: one entry is at most {}", ruler.in_stitches ? "500 000 st" : "5000 m"));
    }
    lengths.emplace_back(length);
  }
  return lengths;
}

// Rounding variance of a length in each unit, cm^2.
std::vector<double> rounding_of(const std::vector<Part>& parts, const Ruler& ruler) {
  std::vector<std::vector<double>> numbers(count_of_units());
  for (const Part& part : parts) {
    if (part.written) numbers[static_cast<std::size_t>(part.written->unit)].push_back(part.written->number);
  }
  std::vector<double> variance(count_of_units());
  for (std::size_t u = 0; u < numbers.size(); ++u) {
    if (numbers[u].empty()) continue;
    const Unit unit = static_cast<Unit>(u);
    const double step = (written_step(numbers[u], unit) * unit_length(unit, ruler)).cm();
    variance[u] = step * step / 12;
  }
  return variance;
}

void append(Reading& reading, const Part& part, std::optional<Length> length, double variance) {
  std::vector<Entry>& entries = reading.entries;
  if (entries.empty() || entries.back().colour != part.colour) {
    entries.push_back({part.colour, length, length ? variance : 0, part.number});
    return;
  }
  Entry& last = entries.back();
  if (last.length && length) {
    last.length = *last.length + *length;
    last.rounding_variance += variance;
  } else {
    last.length.reset();
    last.rounding_variance = 0;
  }
}

std::optional<Length> sum_of_first(std::size_t count, const std::vector<std::optional<Length>>& lengths) {
  Length sum;
  for (std::size_t i = 0; i < count; ++i) {
    if (!lengths[i]) return std::nullopt;
    sum += *lengths[i];
  }
  return sum;
}

}  // namespace

Length Reading::measured() const {
  Length sum;
  for (const Entry& entry : entries) sum += entry.length.value_or(Length());
  return sum;
}

Reading parse_reading(std::string_view text, End end, Palette& palette, const Ruler& ruler, std::string_view what) {
  const Source source{text, what};
  NameBook book(palette.colours);
  std::vector<Part> parts = parse_parts(source, book, {palette.open, palette.known}, ruler.bare);
  if (parts.size() == 1 && parts[0].is_hook) {
    source.refuse_at(1, parts[0].at, "hook alone: write the colours and lengths around it, like plum 15, hook");
  }
  Reading reading;
  reading.end = end;
  read_marks(source, parts, reading);
  const std::optional<std::size_t> hook = take_hook(source, end, parts);
  const std::optional<std::size_t> worked = stitches_tell(end, ruler) ? first_worked(source, parts, hook) : hook;
  const std::vector<std::optional<Length>> lengths = lengths_of(source, parts, ruler);
  if (worked) {
    reading.loose = sum_of_first(*worked, lengths);
    for (std::size_t i = 0; i < *worked; ++i) {
      if (!lengths[i]) reading.unmeasured_to_hook = parts[i].colour;
    }
  }

  const std::vector<double> variance = rounding_of(parts, ruler);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Part& part = parts[i];
    append(reading, part, lengths[i], part.written ? variance[static_cast<std::size_t>(part.written->unit)] : 0);
    if (reading.loose && worked == i) reading.hook_entry = reading.entries.size() - 1;
  }
  if (reading.loose && worked == parts.size()) reading.hook_entry = reading.entries.size();
  palette.colours = book.colours();
  return reading;
}

}  // namespace ballchange
