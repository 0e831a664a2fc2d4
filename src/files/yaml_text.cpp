#include "files/yaml_text.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"

namespace ballchange {
namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_plain(char c) { return is_letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_' || c == ' '; }

// Words that YAML readers elsewhere take for something other than a text.
bool has_meaning(std::string_view text) {
  constexpr std::array<std::string_view, 8> words{"null", "true", "false", "yes", "no", "on", "off", "y"};
  const std::string folded = fold_case(text);
  return folded == "n" || std::find(words.begin(), words.end(), folded) != words.end();
}

}  // namespace

std::string yaml_text(std::string_view text) {
  const bool plain = !text.empty() && is_letter(text.front()) && text.back() != ' ' &&
                     std::all_of(text.begin(), text.end(), is_plain) && !has_meaning(text);
  if (plain) return std::string(text);
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t from = at;
    const char32_t c = next_code_point(text, at);
    if (c == U'"' || c == U'\\') {
      out += '\\';
      out += static_cast<char>(c);
    } else if (c == 0xFFFD) {
      out += "\\uFFFD";
    } else if (is_unprintable(c)) {
      out += c > 0xFFFF ? fmt::format("\\U{:08X}", static_cast<unsigned>(c))
                        : fmt::format("\\u{:04X}", static_cast<unsigned>(c));
    } else {
      out += text.substr(from, at - from);
    }
  }
  return out + '"';
}

}  // namespace ballchange
