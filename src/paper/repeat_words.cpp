#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "paper/lettering.hpp"
#include "paper/repeat.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kNamedAlike = 6;  // of one kind
constexpr std::size_t kNamed = 40;      // sections and stretches that a description lists

// By its place, as it stands in every picture: "soot to madder from 1.83 m".
std::string stretch_words(const Repeat& repeat, std::size_t first, std::size_t sections, const std::string& start) {
  const auto name = [&](std::size_t section) { return printable(repeat.name_of(section % repeat.size()), 40); };
  if (sections == 1) return fmt::format("{} from {}", name(first), start);
  return fmt::format("{} to {} from {}", name(first), name(first + sections - 1), start);
}

std::string more(std::size_t all, std::size_t told) {
  return all > told ? fmt::format(" and {} more", all - told) : std::string();
}

std::string description_of(const Yarn& yarn, const RepeatOnPaper& words, bool reading) {
  std::vector<std::string> sections;
  for (std::size_t k = 0; k < std::min(yarn.repeat.size(), kNamed); ++k) {
    sections.push_back(fmt::format("{} {}", printable(yarn.repeat.name_of(k), 40), words.lengths[k]));
  }
  std::string text = fmt::format("{}, {} sections in working order: {}{}.", words.total, yarn.repeat.size(),
                                 fmt::join(sections, ", "), more(yarn.repeat.size(), kNamed));
  if (!words.again.empty()) text += " " + words.again;
  if (!words.alike.empty()) {
    const std::size_t told = std::min(words.alike.size(), kNamed);
    text += fmt::format(" These read alike: {}{}.",
                        fmt::join(words.alike.begin(), words.alike.begin() + std::ptrdiff_t(told), "; "),
                        more(words.alike.size(), told));
  }
  if (!words.pointers.empty()) text += fmt::format(" {}.", fmt::join(words.pointers, "; "));
  if (reading && words.pointers.empty()) text += " The reading fits nowhere on it.";
  return text;
}

}  // namespace

RepeatOnPaper repeat_words(const Yarn& yarn, const RepeatScene& scene, const PlaceShown* shown, Told told) {
  RepeatOnPaper words;
  words.told = told;
  words.title = yarn.name.empty() ? "The repeat" : fmt::format("The repeat of {}", printable(yarn.name, 80));
  words.total = fmt::format("One repeat {}", amount(scene.total, told));
  for (const RepeatPart& part : scene.parts) {
    words.lengths.push_back(section_length(part.length, told));
    words.starts.push_back(section_length(part.from, told));
  }
  for (const AlikeStretches& one : scene.alike) {
    std::vector<std::string> names;
    for (const std::size_t first : one.first) {
      names.push_back(stretch_words(yarn.repeat, first, one.sections, words.starts[first]));
    }
    if (names.size() <= kNamedAlike) {
      words.alike.push_back(and_list(names));
    } else {
      words.alike.push_back(fmt::format("{}{}", fmt::join(names.begin(), names.begin() + kNamedAlike, ", "),
                                        more(names.size(), kNamedAlike)));
    }
  }
  if (const std::size_t times = hidden_repeats(yarn.repeat); times > 1) {
    words.again = fmt::format("It comes round {} times within that: all of it reads alike.", times);
  }
  for (const RepeatPointer& pointer : scene.pointers) words.chances.push_back(percent(pointer.probability));
  if (shown != nullptr) {
    const std::string_view end = shown->reading.end == End::old_end ? "Old end" : "New end";
    for (const ToldCandidate& one : told_candidates(*shown, told)) {
      words.pointers.push_back(fmt::format("{} {} ({})", words.pointers.empty() ? end : "or", one.text, one.chance()));
    }
  }
  words.description = description_of(yarn, words, shown != nullptr);
  return words;
}

std::string alike_mark(std::size_t index) { return std::string(1, char('a' + index % 26)); }

double repeat_legend(Drawing& drawing, const RepeatScene& scene, const RepeatOnPaper& words,
                     const std::vector<Ink>& inks, double y, double width, std::size_t kinds) {
  const auto lines = [&](const std::string& text, std::string_view attributes) {
    for (const std::string& line : broken(text, width)) {
      drawing.text(0, y + kLetters, line, attributes);
      y += kLine;
    }
  };
  for (std::size_t i = 0; i < std::min(words.pointers.size(), kPointersDrawn); ++i) {
    lines(words.pointers[i], i == 0 ? "font-weight=\"bold\"" : "");
  }
  if (!scene.pointers.empty()) lines("pale around a pointer: so far off the loose end may lie", "");
  for (std::size_t i = 0; i < std::min(words.alike.size(), kinds); ++i) {
    lines(fmt::format("{}: {} read alike", alike_mark(i), words.alike[i]), "");
  }
  if (words.alike.size() > kinds) {
    const std::size_t more = words.alike.size() - kinds;
    lines(more == 1 ? std::string("and one more kind of stretch that reads alike")
                    : fmt::format("and {} more kinds of stretches that read alike", more),
          "");
  }
  if (!words.again.empty()) lines(words.again, "");
  if (scene.parts.size() > kNamedBeside) return section_table(drawing, scene, words, inks, y + 0.8, width);
  return y + 0.8 + colour_legend(drawing, scene.colours, inks, 0, y + 0.8, width).height;
}

}  // namespace ballchange
