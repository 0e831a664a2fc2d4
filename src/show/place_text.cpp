#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "base/text.hpp"
#include "picture/inward.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kCandidates = 4;  // told; --verbose and JSON have them all

std::string name(const std::vector<Colour>& colours, ColourId colour) { return printable(colours[colour].name); }

std::string_view end_label(End end) { return end == End::old_end ? "Old end" : "New end"; }

std::string_view running(Direction direction) {
  return direction == Direction::backward ? ", running the other way" : "";
}

std::vector<std::string> names(const Repeat& repeat, const std::vector<std::size_t>& sections) {
  std::vector<std::string> out;
  for (const std::size_t k : sections) out.push_back(printable(repeat.name_of(k)));
  return out;
}

// Nothing where the entry was read as it stands.
std::vector<std::string> explained_texts(const PlaceShown& shown, const Explained& why) {
  const Repeat& repeat = shown.yarn.repeat;
  const ColourId written = shown.reading.entries[why.entry].colour;
  const std::string own = name(repeat.colours(), written);
  std::vector<std::size_t> seen;
  for (const std::size_t k : why.sections) {
    if (std::find(why.overlooked.begin(), why.overlooked.end(), k) == why.overlooked.end()) seen.push_back(k);
  }
  std::vector<std::string> out;
  if (std::any_of(seen.begin(), seen.end(), [&](std::size_t k) { return repeat.sections()[k].colour != written; })) {
    out.push_back(fmt::format("what was written as {} seems to be {}", own, and_list(names(repeat, seen))));
  }
  if (!why.overlooked.empty()) {
    out.push_back(fmt::format("{} seems passed over in or beside {}", and_list(names(repeat, why.overlooked)), own));
  }
  return out;
}

// All entries that were not read as they stand; empty where there are none.
std::string all_explained(const PlaceShown& shown) {
  std::vector<std::string> entries;
  for (const Explained& why : shown.placing.why) {
    if (why.sections.empty()) continue;
    for (std::string& text : explained_texts(shown, why)) entries.push_back(std::move(text));
  }
  return fmt::format("{}", fmt::join(entries, "; "));
}

// The section whose colour the loose end was seen to show, though by the lengths its place lies just outside.
struct InHand {
  std::size_t section = 0;
  bool at_start = false;  // the place lies before it; otherwise past it
  Length left;            // from the place to its end
};
std::optional<InHand> in_hand_outside(const PlaceShown& shown) {
  const Repeat& repeat = shown.yarn.repeat;
  const Explained* first = explained(shown.placing, 0);
  if (first == nullptr || first->misnamed || first->sections.size() != 1) return std::nullopt;
  const std::size_t section = first->sections.front();
  if (repeat.spot(shown.placing.place).section == section) return std::nullopt;
  const Length before = nearest(repeat.start(section) - shown.placing.place, repeat.total());
  return InHand{section, before > Length(), std::max(Length(), before + repeat.sections()[section].length)};
}

std::string settled_text(const PlaceShown& shown, Told told) {
  const Length doubt = doubt_of(shown.placing);
  const auto outside = in_hand_outside(shown);
  const Length left = outside ? outside->left : shown.yarn.repeat.spot(shown.placing.place).left;
  const std::string to_end =
      outside && !outside->at_start ? "" : fmt::format(", {} from its end", tape(left, told, doubt));
  return fmt::format("{}{}{}. Give or take {}.", best_place_text(shown, told), running(shown.placing.best().direction),
                     to_end, give_or_take(doubt, told));
}

std::string candidate_lines(const PlaceShown& shown, const Screen& screen, Told told, std::size_t most) {
  const std::vector<ToldCandidate> all = told_candidates(shown, told);
  std::string out;
  for (std::size_t i = 0; i < std::min(all.size(), most); ++i) {
    out += labelled(i == 0 ? end_label(shown.reading.end) : "or", fmt::format("{} ({})", all[i].text, all[i].chance()),
                    screen.text_columns());
  }
  return out;
}

// "27 cm into plum, running the other way"; "somewhere in plum" where the reading cannot tell how far.
std::string candidate_text(const PlaceShown& shown, const Candidate& candidate, Told told) {
  const Repeat& repeat = shown.yarn.repeat;
  const std::string place = knows_section_only(shown.placing)
                                ? "somewhere in " + section_name(repeat, repeat.spot(candidate.place).section)
                                : place_text(repeat, candidate.place, told, doubt_of(shown.placing));
  return place + std::string(running(candidate.direction));
}

// How the best candidate reads the entries that it takes for something else.
std::string best_way_line(const PlaceShown& shown, const Screen& screen) {
  std::string text = all_explained(shown);
  if (text.empty()) return text;
  return labelled(end_label(shown.reading.end), text + ".", screen.text_columns());
}

// As lines of a screen; empty for nothing.
std::string to_type(const std::optional<ToType>& line, const Screen& screen) {
  if (!line) return {};
  std::string out = labelled("Then", line->how, screen.text_columns());
  out += std::string(kLabelWidth, ' ') + line->line + "\n";
  return line->otherwise.empty() ? out : out + labelled("Or", line->otherwise, screen.text_columns());
}

}  // namespace

std::string section_name(const Repeat& repeat, std::size_t section) {
  const std::vector<Section>& all = repeat.sections();
  const auto alike =
      std::count_if(all.begin(), all.end(), [&](const Section& other) { return other.colour == all[section].colour; });
  std::string own = printable(repeat.name_of(section));
  if (alike == 1) return own;
  const std::size_t before = (section + all.size() - 1) % all.size();
  return fmt::format("the {} after {}", own, printable(repeat.name_of(before)));
}

std::string best_candidate_text(const PlaceShown& shown, Told told) {
  const Candidate& best = shown.placing.best();
  if (knows_section_only(shown.placing)) return candidate_text(shown, best, told);
  return best_place_text(shown, told) + std::string(running(best.direction));
}

std::string place_text(const Repeat& repeat, Length place, Told told, Length doubt) {
  const Spot spot = repeat.spot(place);
  if (is_nothing(spot.into, told)) return fmt::format("at the start of {}", section_name(repeat, spot.section));
  return fmt::format("{} into {}", tape(spot.into, told, doubt), section_name(repeat, spot.section));
}

std::string best_place_text(const PlaceShown& shown, Told told) {
  const Repeat& repeat = shown.yarn.repeat;
  if (const auto outside = in_hand_outside(shown)) {
    return fmt::format("at the very {} of {}", outside->at_start ? "start" : "end",
                       section_name(repeat, outside->section));
  }
  return place_text(repeat, shown.placing.place, told, doubt_of(shown.placing));
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
                     strand_name(shown), written, colour, and_list(usual));
}

std::string misread_text(const PlaceShown& shown) {
  std::string text = all_explained(shown);
  if (text.empty()) return text;
  return fmt::format("On the {} {}: look again.", strand_name(shown), text);
}

std::string ToldCandidate::chance() const {
  const std::string share = percent(probability);
  return places > 1 ? fmt::format("{}, in {} places alike", share, places) : share;
}

std::vector<ToldCandidate> told_candidates(const PlaceShown& shown, Told told) {
  struct Alike {
    std::string text;
    double probability = 0;
    std::set<std::size_t> sections;
  };
  std::vector<Alike> lines;
  bool best = true;  // they stand best first
  for (const Candidate& candidate : shown.placing.candidates) {
    std::string text = best ? best_candidate_text(shown, told) : candidate_text(shown, candidate, told);
    best = false;
    auto line = std::find_if(lines.begin(), lines.end(), [&](const Alike& other) { return other.text == text; });
    if (line == lines.end()) line = lines.insert(line, {text, 0, {}});
    line->probability += candidate.probability;
    line->sections.insert(shown.yarn.repeat.spot(candidate.place).section);
  }
  std::vector<ToldCandidate> all;
  for (const Alike& line : lines) all.push_back({line.text, line.probability, line.sections.size()});
  return all;
}

std::string reasons_text(const PlaceShown& shown, const Screen& screen, Told told) {
  std::string out;
  const std::vector<ToldCandidate> all = told_candidates(shown, told);
  for (std::size_t i = 1; i < all.size(); ++i) {
    out += labelled(end_label(shown.reading.end), fmt::format("could also be {}: {}.", all[i].text, all[i].chance()),
                    screen.text_columns());
  }
  return shown.placing.verdict == Verdict::unsettled ? out + best_way_line(shown, screen) : out;
}

std::string place_screen(const PlaceShown& shown, const Screen& screen, Told told, bool verbose) {
  const Placing& placing = shown.placing;
  const std::size_t columns = screen.text_columns();
  std::string out;
  if (placing.verdict == Verdict::no_fit) {
    out = wrapped("This reading fits nowhere on the repeat: " + misfit_text(shown, told), columns);
    return out + wrapped("Measure that stretch again, or see whether the yarn is the right one.", columns);
  }
  if (placing.verdict == Verdict::unsettled) {
    out = wrapped("Can't tell yet: " + what_would_settle(shown, told), columns);
    out += to_type(how_to_answer(shown, told), screen);
    out += candidate_lines(shown, screen, told, verbose ? placing.candidates.size() : kCandidates);
    return verbose ? out + best_way_line(shown, screen) : out;
  }
  out = labelled(end_label(shown.reading.end), settled_text(shown, told), columns);
  out += labelled("Sure", percent(placing.sureness) + ".", columns);
  const std::string misread = misread_text(shown);
  if (!misread.empty()) out += labelled("Mind", misread, columns);
  if (placing.ask) {
    out += labelled("But", question_text(*placing.ask, shown), columns);
    out += to_type(how_to_answer(shown, told), screen);
  }
  return verbose ? out + reasons_text(shown, screen, told) : out;
}

}  // namespace ballchange
