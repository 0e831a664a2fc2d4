#include "reading/name.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/code_points.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostBytes = 200;
constexpr std::u32string_view kRefused = U",|+\"'`‘’‚‛“”„‟«»‹›";

// What is wrong with the character at `at`.
std::string_view reason(std::string_view name, std::size_t at, bool starts_word) {
  const std::size_t from = at;
  const char32_t c = next_code_point(name, at);
  if (c == 0xFFFD) {
    return at - from == 1 ? "is not valid UTF-8: write it again"
                          : "holds a character that was lost on the way (U+FFFD): write it again";
  }
  if (is_unprintable(c) || is_variation_selector(c))
    return "holds a character that can't be seen: write it again without";
  if (kRefused.find(c) != std::u32string_view::npos) return "can't hold a comma, bar, plus or quote: leave it out";
  if (from == 0 && (c == '@' || (c == '-' && !means_number(name, 0)))) {
    return "can't begin with @ or -: leave it out";
  }
  if (!starts_word) return {};
  if (means_number(name, from)) return "can't have a word that begins with a digit: a length would start there";
  if (column_count(c) == 0) return "has an accent with no letter under it: write the letter before it";
  return {};
}

}  // namespace

std::optional<NameFault> name_fault(std::string_view name) {
  if (trim(name).empty()) return NameFault{0, "a colour's name is missing: write one, like plum"};
  if (name.size() > kMostBytes) return NameFault{0, fmt::format("a colour's name has at most {} bytes", kMostBytes)};
  if (fold_case(trim(name)) == "hook")
    return NameFault{0, "hook tells where the hook is: give the colour another name"};
  bool starts_word = true;
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t from = at;
    const std::string_view why = reason(name, from, starts_word);
    if (!why.empty()) return NameFault{from, fmt::format("the name '{}' {}", printable(name, 40), why)};
    starts_word = is_blank(next_code_point(name, at));
  }
  return std::nullopt;
}

std::string single_spaced(std::string_view name) {
  std::string out;
  bool gap = false;
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t from = at;
    if (is_blank(next_code_point(name, at))) {
      gap = !out.empty();
      continue;
    }
    if (gap) out += ' ';
    gap = false;
    out += name.substr(from, at - from);
  }
  return out;
}

NameBook::NameBook(std::vector<Colour> colours) : colours_(std::move(colours)) {
  folded_.reserve(colours_.size());
  for (const Colour& colour : colours_) folded_.push_back(fold_case(colour.name));
}

std::optional<ColourId> NameBook::exact(std::string_view name) const {
  const auto same = [&](const Colour& colour) { return colour.name == name; };
  if (const auto at = std::find_if(colours_.begin(), colours_.end(), same); at != colours_.end()) {
    return static_cast<ColourId>(at - colours_.begin());
  }
  const auto at = std::find(folded_.begin(), folded_.end(), fold_case(name));
  if (at == folded_.end()) return std::nullopt;
  return static_cast<ColourId>(at - folded_.begin());
}

std::vector<ColourId> NameBook::beginning(std::string_view name) const {
  const std::string start = fold_case(name);
  std::vector<ColourId> found;
  for (ColourId id = 0; id < folded_.size(); ++id) {
    if (folded_[id].starts_with(start)) found.push_back(id);
  }
  return found;
}

std::string NameBook::advice(std::string_view name) const {
  std::vector<std::string> names;
  names.reserve(colours_.size());
  for (const Colour& colour : colours_) names.push_back(colour.name);
  if (const auto near = closest(name, names)) return fmt::format("did you mean {}?", printable(*near, 40));
  return fmt::format("write {}", listed(names));
}

ColourId NameBook::add(std::string name) {
  folded_.push_back(fold_case(name));
  colours_.push_back({std::move(name), std::nullopt});
  return colours_.size() - 1;
}

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t most = 6;
  const std::size_t shown = std::min(most, names.size());
  std::string out;
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) out += i + 1 == names.size() ? " or " : ", ";
    out += printable(names[i], 40);
  }
  return names.size() > most ? out + ", …" : out;
}

}  // namespace ballchange
