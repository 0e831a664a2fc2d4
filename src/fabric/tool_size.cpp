#include "fabric/tool_size.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <sstream>
#include <string>
#include <system_error>

#include "base/number.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr double kThinnest = 0.5, kThickest = 60;  // mm, of any tool there is

bool take_word(std::string_view& text, std::string_view word) {
  if (fold_case(text.substr(0, word.size())) != word) return false;
  text = trim(text.substr(word.size()));
  return true;
}

std::string also(const NamedSize& named, std::string_view word) {
  std::string text = fmt::format("{} taken as {} mm", printable(word, 20), plain_number(named.mm, 3));
  for (std::size_t k = 0; k < named.also.size(); ++k) {
    text += k == 0 ? fmt::format("; some makers' {} is {} mm", printable(word, 20), plain_number(named.also[k], 3))
                   : fmt::format(" or {} mm", plain_number(named.also[k], 3));
  }
  return text;
}

// The bare size, however it was told: "4 mm hook", "size 4,0 mm".
std::optional<ToolTold> size_in_words(std::string_view text) {
  std::istringstream words{std::string(text)};
  std::string bare;
  for (std::string word; words >> word;) {
    const std::string folded = fold_case(word);
    if (folded == "hook" || folded == "needle" || folded == "needles" || folded == "size") continue;
    bare += (bare.empty() ? "" : " ") + word;
  }
  std::replace(bare.begin(), bare.end(), ',', '.');
  return tool_size(bare, Tool::hook);
}

}  // namespace

std::optional<ToolTold> tool_size(std::string_view text, Tool usual) {
  std::string_view word = trim(text);
  ToolTold told{usual, 0, {}};
  if (take_word(word, "hook")) {
    told.tool = Tool::hook;
  } else if (take_word(word, "needles") || take_word(word, "needle")) {
    told.tool = Tool::needle;
  }
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), told.mm, std::chars_format::fixed);
  const std::string_view rest =
      error == std::errc() ? trim(word.substr(static_cast<std::size_t>(end - word.data()))) : word;
  if (error == std::errc() && (fold_case(rest) == "mm" || (rest.empty() && word.find('.') != std::string_view::npos))) {
    if (told.mm < kThinnest || told.mm > kThickest) return std::nullopt;
    return told;
  }
  const auto named = size_named(told.tool, word);
  if (!named) return std::nullopt;
  told.mm = named->mm;
  told.note = also(*named, word);
  return told;
}

bool same_size(std::string_view a, std::string_view b) {
  const auto one = size_in_words(a);
  const auto other = size_in_words(b);
  if (!one || !other) return fold_case(trim(a)) == fold_case(trim(b));
  constexpr double hair = 1e-6;  // mm
  return std::abs(one->mm - other->mm) < hair;
}

}  // namespace ballchange
