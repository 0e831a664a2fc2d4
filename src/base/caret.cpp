#include "base/caret.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kColumns = 76;
constexpr std::size_t kColumnsBefore = 48;

std::size_t character_before(std::string_view text, std::size_t at) {
  std::size_t from = at - 1;
  while (from > 0 && at - from < 4 && (static_cast<unsigned char>(text[from]) & 0xC0U) == 0x80U) --from;
  return from;
}

std::string printed_before(std::string_view text, std::size_t at) {
  std::string out;
  for (std::size_t from = at; from > 0;) {
    from = character_before(text, from);
    std::string longer = printable(text.substr(from, at - from), kColumns);
    if (display_width(longer) > kColumnsBefore) return "…" + out;
    out = std::move(longer);
  }
  return out;
}

}  // namespace

std::vector<std::string> caret_lines(std::string_view text, std::size_t at) {
  assert(at <= text.size());
  std::string one_line(text);
  std::replace_if(
      one_line.begin(), one_line.end(), [](char c) { return c >= '\t' && c <= '\r'; }, ' ');
  const std::string before = printed_before(one_line, at);
  const std::size_t column = display_width(before);
  return {before + printable(std::string_view(one_line).substr(at), kColumns - column), std::string(column, ' ') + "^"};
}

}  // namespace ballchange
