#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "picture/inward.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

std::size_t asked_entry(const Question& question, const Reading& reading) {
  return std::min(question.entry, reading.entries.size() - 1);
}

bool lies_in_work(const Reading& reading, std::size_t entry) { return reading.loose && entry >= reading.hook_entry; }

// What was read of it is not all of it.
bool goes_on(const Reading& reading, std::size_t entry) {
  return entry + 1 == reading.entries.size() && !reading.bar_at_open_end;
}

constexpr const char* kMeasureOn = "if not, measure further along and write down the next colours too.";

std::string_view way_name(const Placing& placing) {
  return placing.best().direction == Direction::backward ? "other" : "usual";
}

bool tells_hook(const Reading& reading) { return reading.loose || reading.unmeasured_to_hook; }

// All of it is loose yarn, and the hook comes after it.
bool hook_stands_last(const Reading& reading) { return reading.loose && reading.hook_entry == reading.entries.size(); }

// A splash, as nobody would call a stretch of half a metre.
bool is_short(const Yarn& yarn, ColourId colour) {
  const Length most = 3 * habits(yarn.reckoning).short_section;
  const std::vector<Section>& all = yarn.repeat.sections();
  return std::all_of(all.begin(), all.end(),
                     [&](const Section& section) { return section.colour != colour || section.length <= most; });
}

// A reading of which some lengths or colours are still to be looked up: "?" stands for them, which no reading holds.
class Draft {
 public:
  Draft(const Reading& reading, const std::vector<Colour>& colours) : reading_(reading), colours_(colours) {}

  void ask_length(std::size_t entry) { reading_.entries[entry] = asked(name(reading_.entries[entry].colour) + " ?"); }
  void close() { reading_.bar_at_open_end = true; }
  void ask_next_colour() { reading_.entries.push_back(asked("?")); }
  void rename(std::size_t entry, ColourId colour) { reading_.entries[entry].colour = colour; }
  // That entry seen as several colours; all but one where measuring stopped must be measured. Where the splash lies
  // towards a neighbour it may have been measured with that one.
  void split(std::size_t entry, const std::vector<ColourId>& colours, ColourId splash) {
    const bool open = goes_on(reading_, entry);
    if (entry > 0 && colours.front() == splash && reading_.entries[entry - 1].length) ask_length(entry - 1);
    const bool before_another = entry + 1 < reading_.entries.size() && !goes_on(reading_, entry + 1);
    if (before_another && colours.back() == splash) ask_length(entry + 1);
    std::vector<Entry> pieces;
    for (const ColourId colour : colours) pieces.push_back(asked(name(colour) + " ?"));
    if (open) pieces.back() = Entry{colours.back(), std::nullopt, 0, 1};
    const auto at = reading_.entries.erase(reading_.entries.begin() + static_cast<std::ptrdiff_t>(entry));
    reading_.entries.insert(at, pieces.begin(), pieces.end());
  }
  [[nodiscard]] std::string typed(Told told) const {
    return fmt::format("{} {}", strand_option(reading_.end), typed_reading(reading_, colours_, told));
  }

 private:
  [[nodiscard]] std::string name(ColourId colour) const { return colours_[colour].name; }
  Entry asked(std::string text) {
    colours_.push_back({std::move(text), std::nullopt});
    return {colours_.size() - 1, std::nullopt, 0, 1};
  }

  Reading reading_;
  std::vector<Colour> colours_;
};

// What that entry is, from the loose end inward, when the splash is there; empty where that can't be told.
std::vector<ColourId> with_splash(const PlaceShown& shown, std::size_t entry, ColourId splash) {
  const Explained* why = explained(shown.placing, entry);
  if (why == nullptr) return {};
  const Inward inward(shown.yarn.repeat, {shown.reading, shown.placing});
  const ColourId own = shown.reading.entries[entry].colour;
  std::vector<ColourId> colours;
  std::vector<std::size_t> sections = inward.sections(*why);
  if (sections.size() == 1) sections.push_back(inward.next(sections.back()));
  for (const std::size_t k : sections) {
    const ColourId colour = inward.section(k).colour == splash ? splash : own;
    if (colours.empty() || colours.back() != colour) colours.push_back(colour);
  }
  return colours.size() > 1 ? colours : std::vector<ColourId>();
}

}  // namespace

std::string_view strand_name(End end) { return end == End::old_end ? "old strand" : "new strand"; }

std::string_view strand_name(const PlaceShown& shown) {
  return shown.called.empty() ? strand_name(shown.reading.end) : shown.called;
}

std::string_view strand_option(End end) { return end == End::old_end ? "--old" : "--new"; }

std::string first_length_text(const Reading& reading, const std::vector<Colour>& colours, std::string_view called) {
  return fmt::format("how far is it from the loose end to the end of {} on the {}?",
                     printable(colours[reading.entries.front().colour].name),
                     called.empty() ? strand_name(reading.end) : called);
}

std::string question_text(const Question& question, const PlaceShown& shown) {
  const Reading& reading = shown.reading;
  const std::vector<Colour>& colours = shown.yarn.repeat.colours();
  const std::string_view strand = strand_name(shown);
  const std::size_t at = asked_entry(question, reading);
  const std::string colour = printable(colours[reading.entries[at].colour].name);
  const auto other = [&] { return printable(colours[question.other].name); };
  const bool open = goes_on(reading, at);
  const std::string count =
      fmt::format("Count the {0} stitches in the work back to where {0} began, and write them as {1}.", colour,
                  open ? "14st |" : "14st");
  switch (question.kind) {
    case Question::Kind::first_length:
      return first_length_text(reading, colours, shown.called);
    case Question::Kind::next_change:
      return fmt::format(
          "how far does {} go on the {}? {}", colour, strand,
          lies_in_work(reading, at) ? count : "Measure to where it changes, and write down the colour that follows.");
    case Question::Kind::which_follows:
      if (lies_in_work(reading, at)) return fmt::format("which colour was worked before {}?", colour);
      return fmt::format("which colour follows {} on the {}?", colour, strand);
    case Question::Kind::how_long:
      return fmt::format("how long is {}{} on the {}?{}", open ? "all of " : "", colour, strand,
                         lies_in_work(reading, at) ? " " + count : std::string());
    case Question::Kind::look_alike:
      return fmt::format("is entry {} of the {} really {}, or is it {}?", reading.entries[at].written_as, strand,
                         colour, other());
    case Question::Kind::overlooked:
      return fmt::format("is there a {} of {} in or beside {} on the {}?",
                         is_short(shown.yarn, question.other) ? "short piece" : "stretch", other(), colour, strand);
    case Question::Kind::wrong_way:
      break;
  }
  return fmt::format("was the {} written down from its loose end? It only fits the other way round.", strand);
}

std::string expecting(const Placing& placing, std::string_view from_option) {
  return fmt::format("{} {}", from_option, way_name(placing));
}

namespace {

ToType type_the_length(const PlaceShown& shown, Told told, std::size_t at, Draft draft) {
  draft.ask_length(at);
  if (!goes_on(shown.reading, at)) return {"type it again with the length for the ?:", draft.typed(told)};
  draft.close();
  const Colour& colour = shown.yarn.repeat.colours()[shown.reading.entries[at].colour];
  return {fmt::format("type it again with all of {} for the ?; the | says that it is all:", printable(colour.name)),
          draft.typed(told)};
}

// With a colour after it the last stretch is whole: what was measured of it so far would be wrong.
ToType type_what_follows(const PlaceShown& shown, Told told, Draft draft) {
  const Entry& last = shown.reading.entries.back();
  const bool open = last.length && !shown.reading.bar_at_open_end;
  if (open) draft.ask_length(shown.reading.entries.size() - 1);
  draft.ask_next_colour();
  if (!open) return {"type it again with the colour for the ?:", draft.typed(told)};
  return {fmt::format("type it again with all of {} and the colour after it for each ?:",
                      printable(shown.yarn.repeat.colours()[last.colour].name)),
          draft.typed(told)};
}

}  // namespace

std::optional<ToType> how_to_answer(const PlaceShown& shown, Told told, std::string_view from_option) {
  const std::optional<Question>& question = shown.placing.ask;
  if (!question) return std::nullopt;
  // Where the hook is would be lost, and what is worked is written in stitches.
  if (tells_hook(shown.reading) && question->kind != Question::Kind::wrong_way) return std::nullopt;
  const std::vector<Colour>& colours = shown.yarn.repeat.colours();
  const std::size_t at = asked_entry(*question, shown.reading);
  Draft draft(shown.reading, colours);
  switch (question->kind) {
    case Question::Kind::how_long:
      return type_the_length(shown, told, at, std::move(draft));
    case Question::Kind::first_length:
      draft.ask_length(at);
      return ToType{"type it again with the length for the ?:", draft.typed(told)};
    case Question::Kind::which_follows:
      return type_what_follows(shown, told, std::move(draft));
    case Question::Kind::look_alike:
      draft.rename(at, question->other);
      return ToType{fmt::format("if it is {}, type:", printable(colours[question->other].name)), draft.typed(told),
                    kMeasureOn};
    case Question::Kind::overlooked: {
      const std::vector<ColourId> seen = with_splash(shown, at, question->other);
      if (seen.empty()) return std::nullopt;
      draft.split(at, seen, question->other);
      return ToType{"if so, type it again with the length for each ?:", draft.typed(told), kMeasureOn};
    }
    case Question::Kind::wrong_way: {
      auto turned = turned_reading(shown.reading, colours, told);
      if (!turned) return std::nullopt;
      turned->how = "if not, " + turned->how;
      turned->otherwise = fmt::format("if it was, the ball is worked from its {} end: add {}", way_name(shown.placing),
                                      expecting(shown.placing, from_option));
      return turned;
    }
    case Question::Kind::next_change:
      break;
  }
  return std::nullopt;
}

std::string what_would_settle(const PlaceShown& shown, Told told) {
  const Placing& placing = shown.placing;
  std::string out;
  if (placing.ask) out = question_text(*placing.ask, shown);
  const bool asks_to_measure = placing.ask && placing.ask->kind == Question::Kind::next_change;
  if (placing.measure_more && !asks_to_measure) {
    const std::string length = at_least(*placing.measure_more, told);
    const std::string further = shown.reading.loose
                                    ? fmt::format("count further back in the work, as far as {} of yarn.", length)
                                    : fmt::format("measure {} further along the {}.", length, strand_name(shown));
    return out.empty() ? further : fmt::format("{} Or {}", out, further);
  }
  if (!out.empty()) return out;
  return fmt::format("the {} looks the same in several places. Write down the next colours and their lengths.",
                     strand_name(shown));
}

bool seems_turned(const Placing& placing) { return placing.ask && placing.ask->kind == Question::Kind::wrong_way; }

std::optional<ToType> turned_reading(const Reading& reading, const std::vector<Colour>& colours, Told told) {
  // The hook stays where it is: behind all that is loose, from whichever side that was written.
  if (tells_hook(reading) && !hook_stands_last(reading)) return std::nullopt;
  Reading turned = reading;
  std::reverse(turned.entries.begin(), turned.entries.end());
  std::swap(turned.bar_at_loose_end, turned.bar_at_open_end);
  Draft draft(turned, colours);
  std::string how = "type it the other way round:";
  if (!turned.bar_at_loose_end && !turned.entries.front().length) {
    draft.ask_length(0);
    how = fmt::format("type it the other way round, with the length of {} from the loose end for the ?:",
                      printable(colours[turned.entries.front().colour].name));
  }
  return ToType{how, draft.typed(told)};
}

}  // namespace ballchange
