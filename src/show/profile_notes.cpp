#include "show/profile_notes.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "base/css_colours.hpp"
#include "base/text.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

// Neighbours closer than this in CIEDE2000 are hard to tell apart along a strand.
constexpr double kLookAlike = 8;
// Longer than a person measures along a strand.
constexpr Length kTooLongToMeasure = 2'000_cm;

std::string round_length(Length length, Reckoning reckoning) {
  if (reckoning == Reckoning::stitches) return fmt::format("{:.0f} stitches", length.cm());
  return length < 1'000_cm ? fmt::format("{:.0f} cm", length.cm()) : fmt::format("{:.1f} m", length.cm() / 100);
}

std::string name_of(const Yarn& yarn, std::size_t section) { return printable(yarn.repeat.name_of(section), 40); }

void note_shorter_repeat(const Yarn& yarn, std::vector<std::string>& notes) {
  const std::size_t times = hidden_repeats(yarn.repeat);
  if (times == 1) return;
  const std::size_t period = yarn.repeat.size() / times;
  notes.push_back(fmt::format(
      "The same {} sections come {} times over in this repeat, and a tape can't tell one time from the next: it really "
      "repeats every {}. Write only the first {} sections, or no reading will say which of the {} it shows.",
      period, times, round_length(shortest_period(yarn.repeat), yarn.reckoning), period, times));
}

void note_mirror(const Yarn& yarn, std::vector<std::string>& notes) {
  if (mirror_axis(yarn.repeat)) {
    notes.emplace_back(
        "Read from either end this yarn looks the same, so a ball may be worked from its outside or its inside.");
  }
}

void note_look_alikes(const Yarn& yarn, std::vector<std::string>& notes) {
  const auto& colours = yarn.repeat.colours();
  std::vector<std::string> pairs;
  for (std::size_t k = 0; k < yarn.repeat.size(); ++k) {
    const std::size_t next = (k + 1) % yarn.repeat.size();
    const auto& a = colours[yarn.repeat.sections()[k].colour].shade;
    const auto& b = colours[yarn.repeat.sections()[next].colour].shade;
    if (!a || !b || colour_difference(to_lab(*a), to_lab(*b)) >= kLookAlike) continue;
    std::string pair = fmt::format("{} and {}", name_of(yarn, k), name_of(yarn, next));
    if (std::find(pairs.begin(), pairs.end(), pair) == pairs.end()) pairs.push_back(std::move(pair));
  }
  if (pairs.empty()) return;
  notes.push_back(
      fmt::format("Close shades lie side by side, look for their changes in daylight: {}.", fmt::join(pairs, "; ")));
}

void note_long_section(const Yarn& yarn, std::vector<std::string>& notes) {
  if (yarn.reckoning == Reckoning::stitches) return;
  for (std::size_t k = 0; k < yarn.repeat.size(); ++k) {
    const Length length = yarn.repeat.sections()[k].length;
    if (length < kTooLongToMeasure) continue;
    notes.push_back(fmt::format("{} runs on for {}: an end that lies deep inside it shows no change to measure from.",
                                name_of(yarn, k), round_length(length, yarn.reckoning)));
  }
}

void note_short_ball(const Yarn& yarn, std::vector<std::string>& notes) {
  if (!yarn.ball_length || *yarn.ball_length >= yarn.repeat.total()) return;
  notes.push_back(fmt::format("A ball holds {}, less than one repeat of {}: no single ball shows every colour.",
                              round_length(*yarn.ball_length, yarn.reckoning),
                              round_length(yarn.repeat.total(), yarn.reckoning)));
}

}  // namespace

std::vector<std::string> profile_notes(const Yarn& yarn) {
  std::vector<std::string> notes;
  note_shorter_repeat(yarn, notes);
  note_mirror(yarn, notes);
  note_look_alikes(yarn, notes);
  note_long_section(yarn, notes);
  note_short_ball(yarn, notes);
  return notes;
}

std::optional<std::string> unshaded_note(const std::vector<Colour>& colours) {
  constexpr std::size_t most = 5;
  std::vector<std::string> names;
  for (const Colour& colour : colours) {
    if (!colour.shade && !css_colour(fold_case(colour.name))) names.push_back(printable(colour.name, 40));
  }
  if (names.empty()) return std::nullopt;
  const bool one = names.size() == 1;
  const std::string first = names.front();
  if (const std::size_t all = names.size(); all > most + 1) {
    names.resize(most);
    names.push_back(fmt::format("{} more", all - most));
  }
  return fmt::format(
      "no shade was told for {}, so {} drawn in grey: give {} where the yarn's repeat is written, {{colour: {}, shade: "
      "\"#c9b48f\", ...}}",
      and_list(names), one ? "it is" : "they are", one ? "it one" : "each one", first);
}

}  // namespace ballchange
