#include "picture/inks.hpp"

#include <algorithm>

#include "base/css_colours.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

bool taken(const std::vector<Ink>& so_far, const std::string& letter) {
  return std::any_of(so_far.begin(), so_far.end(), [&](const Ink& ink) { return ink.letter == letter; });
}

std::string letter_for(const std::string& name, const std::vector<Ink>& so_far) {
  std::string spare;
  for (const char c : name) {
    const bool small = c >= 'a' && c <= 'z';
    if (!small && !(c >= 'A' && c <= 'Z')) continue;
    std::string capital(1, small ? char(c - 'a' + 'A') : c);
    if (!taken(so_far, capital)) return capital;
  }
  for (std::size_t number = 1;; ++number) {
    spare = std::to_string(number);
    if (!taken(so_far, spare)) return spare;
  }
}

// Light and dark by turns, so that neighbours differ.
Shade grey(std::size_t index) {
  const auto level = static_cast<std::uint8_t>(70 + (index * 67) % 160);
  return {level, level, level};
}

}  // namespace

std::vector<Ink> inks(const std::vector<Colour>& colours) {
  std::vector<Ink> inks;
  for (const Colour& colour : colours) {
    const auto named = css_colour(fold_case(colour.name));
    inks.push_back({colour.shade ? *colour.shade : named.value_or(grey(inks.size())), !colour.shade.has_value(),
                    letter_for(colour.name, inks)});
  }
  return inks;
}

}  // namespace ballchange
