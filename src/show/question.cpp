#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "show/place.hpp"

namespace ballchange {

std::string_view strand_name(End end) { return end == End::old_end ? "old strand" : "new strand"; }

std::string_view strand_option(End end) { return end == End::old_end ? "--old" : "--new"; }

std::string question_text(const Question& question, const Reading& reading, const std::vector<Colour>& colours) {
  const std::string_view strand = strand_name(reading.end);
  const std::size_t at = std::min(question.entry, reading.entries.size() - 1);
  const std::string colour = printable(colours[reading.entries[at].colour].name);
  const auto other = [&] { return printable(colours[question.other].name); };
  switch (question.kind) {
    case Question::Kind::first_length:
      return fmt::format("how far is it from the loose end to the end of {} on the {}?", colour, strand);
    case Question::Kind::next_change:
      return fmt::format("how far does {} go on the {}? Measure to where it changes.", colour, strand);
    case Question::Kind::which_follows:
      return fmt::format("which colour follows {} on the {}?", colour, strand);
    case Question::Kind::how_long:
      return fmt::format("how long is {} on the {}?", colour, strand);
    case Question::Kind::look_alike:
      return fmt::format("is entry {} of the {} really {}, or is it {}?", reading.entries[at].written_as, strand,
                         colour, other());
    case Question::Kind::overlooked:
      return fmt::format("is there a short piece of {} in or beside {} on the {}?", other(), colour, strand);
    case Question::Kind::wrong_way:
      break;
  }
  return fmt::format("was the {} written down from its loose end? It only fits the other way round.", strand);
}

std::string what_would_settle(const PlaceShown& shown, Told told) {
  const Placing& placing = shown.placing;
  std::string out;
  if (placing.ask) out = question_text(*placing.ask, shown.reading, shown.yarn.repeat.colours());
  if (placing.measure_more) {
    const std::string further = fmt::format("easure {} further along the {}.", amount(*placing.measure_more, told),
                                            strand_name(shown.reading.end));
    return out.empty() ? "m" + further : out + " Or m" + further;
  }
  if (!out.empty()) return out;
  return fmt::format("the {} looks the same in several places. Write down the next colours and their lengths.",
                     strand_name(shown.reading.end));
}

std::string turned_reading(const Reading& reading, const std::vector<Colour>& colours, Told told) {
  if (reading.loose) return {};
  Reading turned = reading;
  std::reverse(turned.entries.begin(), turned.entries.end());
  std::swap(turned.bar_at_loose_end, turned.bar_at_open_end);
  return fmt::format("{} {}", strand_option(reading.end), typed_reading(turned, colours, told));
}

}  // namespace ballchange
