#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kCandidates = 4;  // told; --verbose and JSON have them all

std::string name(const std::vector<Colour>& colours, ColourId colour) { return printable(colours[colour].name); }

std::string_view end_label(End end) { return end == End::old_end ? "Old end" : "New end"; }

std::string_view running(Direction direction) {
  return direction == Direction::backward ? ", running the other way" : "";
}

std::string explained_text(const PlaceShown& shown, const Explained& why) {
  const Repeat& repeat = shown.yarn.repeat;
  const Entry& entry = shown.reading.entries[why.entry];
  std::vector<std::string> sections;
  std::vector<std::string> passed;
  for (const std::size_t k : why.sections) sections.push_back(printable(repeat.name_of(k)));
  for (const std::size_t k : why.overlooked) passed.push_back(printable(repeat.name_of(k)));
  std::string out = fmt::format("{} is {}", name(shown.yarn.repeat.colours(), entry.colour), and_list(sections));
  if (!passed.empty()) out += fmt::format(" ({} overlooked)", and_list(passed));
  if (why.misnamed) out += " (another name written)";
  return out;
}

std::string settled_text(const PlaceShown& shown, Told told) {
  const Spot spot = shown.yarn.repeat.spot(shown.placing.place);
  return fmt::format("{}{}, {} from its end. Give or take {}.",
                     place_text(shown.yarn.repeat, shown.placing.place, told), running(shown.placing.best().direction),
                     tape(spot.left, told), give_or_take((shown.placing.high - shown.placing.low) / 2, told));
}

std::string section_name(const Repeat& repeat, std::size_t section) {
  const std::vector<Section>& all = repeat.sections();
  const auto alike =
      std::count_if(all.begin(), all.end(), [&](const Section& other) { return other.colour == all[section].colour; });
  std::string own = printable(repeat.name_of(section));
  if (alike == 1) return own;
  const std::size_t before = (section + all.size() - 1) % all.size();
  return fmt::format("the {} after {}", own, printable(repeat.name_of(before)));
}

bool knows_section_only(const Placing& placing) {
  return placing.ask &&
         (placing.ask->kind == Question::Kind::first_length || placing.ask->kind == Question::Kind::next_change);
}

// Places that read the same, as those of a repeat within the repeat, are one line.
struct Alike {
  std::string text;
  double probability = 0;
  int count = 0;
};

std::string candidate_lines(const PlaceShown& shown, const Screen& screen, Told told) {
  std::vector<Alike> lines;
  for (const Candidate& candidate : shown.placing.candidates) {
    const std::string text = candidate_text(shown, candidate, told);
    auto line = std::find_if(lines.begin(), lines.end(), [&](const Alike& other) { return other.text == text; });
    if (line == lines.end()) line = lines.insert(line, {text});
    line->probability += candidate.probability;
    ++line->count;
  }
  std::string out;
  for (std::size_t i = 0; i < std::min(lines.size(), kCandidates); ++i) {
    const std::string which = lines[i].count > 1 ? fmt::format(", one of {} such", lines[i].count) : std::string();
    out += labelled(i == 0 ? end_label(shown.reading.end) : "or",
                    fmt::format("{}{} ({})", lines[i].text, which, percent(lines[i].probability)), screen.columns);
  }
  return out;
}

}  // namespace

std::string candidate_text(const PlaceShown& shown, const Candidate& candidate, Told told) {
  const Repeat& repeat = shown.yarn.repeat;
  if (!knows_section_only(shown.placing)) {
    return place_text(repeat, candidate.place, told) + std::string(running(candidate.direction));
  }
  return fmt::format("somewhere in {}{}", section_name(repeat, repeat.spot(candidate.place).section),
                     running(candidate.direction));
}

std::string place_text(const Repeat& repeat, Length place, Told told) {
  const Spot spot = repeat.spot(place);
  if (is_nothing(spot.into, told)) return fmt::format("at the start of {}", section_name(repeat, spot.section));
  return fmt::format("{} into {}", tape(spot.into, told), section_name(repeat, spot.section));
}

std::string misfit_text(const PlaceShown& shown, Told told) {
  const Repeat& repeat = shown.yarn.repeat;
  const std::size_t worst = shown.placing.why.empty() ? 0 : shown.placing.why.front().entry;
  const Entry& entry = shown.reading.entries[worst];
  std::vector<std::string> usual;
  for (const Section& section : repeat.sections()) {
    if (section.colour != entry.colour) continue;
    const std::string length =
        fmt::format("{} (give or take {})", tape(section.length, told), give_or_take(section.plus_minus * 2, told));
    if (std::find(usual.begin(), usual.end(), length) == usual.end()) usual.push_back(length);
  }
  const std::string colour = name(repeat.colours(), entry.colour);
  const std::string written = entry.length ? fmt::format("{} {}", colour, tape(*entry.length, told)) : colour;
  return fmt::format("entry {} of the {} ({}) fits worst: in this yarn {} is {} long.", entry.written_as,
                     strand_name(shown.reading.end), written, colour, and_list(usual));
}

std::string reasons_text(const PlaceShown& shown, const Screen& screen, Told told) {
  std::string out;
  const std::string_view label = end_label(shown.reading.end);
  for (const Candidate& candidate : shown.placing.candidates) {
    out += labelled(
        label, fmt::format("could be {}: {}.", candidate_text(shown, candidate, told), percent(candidate.probability)),
        screen.columns);
  }
  std::vector<std::string> entries;
  for (const Explained& why : shown.placing.why) {
    if (!why.sections.empty()) entries.push_back(explained_text(shown, why));
  }
  std::string text;
  for (const std::string& entry : entries) text += (text.empty() ? "read so: " : "; ") + entry;
  if (!text.empty()) out += labelled(label, text + ".", screen.columns);
  return out;
}

std::string place_screen(const PlaceShown& shown, const Screen& screen, Told told, bool verbose) {
  const Placing& placing = shown.placing;
  const std::string_view label = end_label(shown.reading.end);
  std::string out;
  if (placing.verdict == Verdict::no_fit) {
    out = wrapped("This reading fits nowhere on the repeat: " + misfit_text(shown, told), screen.columns);
    return out + wrapped("Measure that stretch again, or see whether the yarn is the right one.", screen.columns);
  }
  if (placing.verdict == Verdict::unsettled) {
    out = wrapped("Can't tell yet: " + what_would_settle(shown, told), screen.columns);
    out += candidate_lines(shown, screen, told);
  } else {
    out = labelled(label, settled_text(shown, told), screen.columns);
    out += labelled("Sure", percent(placing.probability()) + ".", screen.columns);
    if (placing.ask) {
      out += labelled("But", question_text(*placing.ask, shown.reading, shown.yarn.repeat.colours()), screen.columns);
      const std::string turned = turned_reading(shown.reading, shown.yarn.repeat.colours(), told);
      if (placing.ask->kind == Question::Kind::wrong_way && !turned.empty()) {
        out += labelled("", "If not, type it the other way round:", screen.columns);
        out += std::string(kLabelWidth, ' ') + turned + "\n";
      }
    }
  }
  return verbose ? out + reasons_text(shown, screen, told) : out;
}

}  // namespace ballchange
