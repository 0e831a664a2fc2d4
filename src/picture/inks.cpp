#include "picture/inks.hpp"

#include <algorithm>

#include "base/css_colours.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

bool taken(const std::vector<Ink>& so_far, const std::string& letter) {
  return std::any_of(so_far.begin(), so_far.end(), [&](const Ink& ink) { return ink.letter == letter; });
}

// A letter of its name that no colour has yet; empty where none is free.
std::string own_letter(const std::string& name, const std::vector<Ink>& so_far) {
  for (const char c : name) {
    const bool small = c >= 'a' && c <= 'z';
    if (!small && !(c >= 'A' && c <= 'Z')) continue;
    std::string capital(1, small ? char(c - 'a' + 'A') : c);
    if (!taken(so_far, capital)) return capital;
  }
  return {};
}

// Letters first, for they are known by their size: small ones are not worked yet.
std::string spare_letter(const std::vector<Ink>& all) {
  for (char c = 'Z'; c >= 'A'; --c) {
    std::string letter(1, c);
    if (!taken(all, letter)) return letter;
  }
  for (std::size_t number = 1;; ++number) {
    std::string spare = std::to_string(number);
    if (!taken(all, spare)) return spare;
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
                    own_letter(colour.name, inks)});
  }
  for (Ink& ink : inks) {
    if (ink.letter.empty()) ink.letter = spare_letter(inks);
  }
  return inks;
}

}  // namespace ballchange
