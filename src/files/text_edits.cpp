#include "files/text_edits.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

namespace ballchange {
namespace {

constexpr std::string_view kMark = "\xEF\xBB\xBF";

}  // namespace

std::size_t mark_bytes(const std::string& text) { return text.starts_with(kMark) ? kMark.size() : 0; }

std::optional<Edit> place_in(const std::string& text, const Node& node) {
  const std::string_view value = node.text();
  std::size_t from = node.offset() + mark_bytes(text);
  std::size_t to = from + value.size();
  if (node.quoted()) {
    const char quote = from < text.size() ? text[from] : '\0';
    if ((quote != '"' && quote != '\'') || to + 1 >= text.size() || text[to + 1] != quote) return std::nullopt;
    if (text.compare(from + 1, value.size(), value) != 0) return std::nullopt;
    return Edit{from, to + 2, {}};
  }
  if (text.compare(from, value.size(), value) != 0) return std::nullopt;
  return Edit{from, to, {}};
}

std::size_t line_start(const std::string& text, std::size_t at) {
  const std::size_t before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
  return before == std::string::npos ? 0 : before + 1;
}

Edit line_behind(const std::string& text, std::size_t at, std::size_t column_of, std::string line) {
  const std::size_t stop = text.find('\n', at);
  const std::size_t column = column_of - line_start(text, column_of);
  line.insert(0, std::string(column, ' '));
  if (stop == std::string::npos) return {text.size(), text.size(), "\n" + line};
  return {stop + 1, stop + 1, line + "\n"};
}

bool has_remark(const std::string& text, const Edit& stretch) {
  char quote = '\0';
  for (std::size_t at = stretch.from; at < stretch.to; ++at) {
    const char c = text[at];
    const char before = at == 0 ? '\n' : text[at - 1];
    const bool begins = std::string_view(" \t\n[{,").find(before) != std::string_view::npos;
    if (quote != '\0') {
      if (c == '\\' && quote == '"') ++at;
      if (c == quote) quote = '\0';
    } else if (begins && (c == '"' || c == '\'')) {
      quote = c;
    } else if (begins && c == '#') {
      return true;
    }
  }
  return false;
}

std::string edited(const std::string& text, std::vector<Edit> edits) {
  std::reverse(edits.begin(), edits.end());
  std::stable_sort(edits.begin(), edits.end(), [](const Edit& a, const Edit& b) { return a.from > b.from; });
  const bool crlf = text.find("\r\n") != std::string::npos;
  std::string out = text;
  for (const Edit& edit : edits) {
    std::string piece;
    for (const char c : edit.text) {
      if (c == '\n' && crlf) piece += '\r';
      piece += c;
    }
    out.replace(edit.from, edit.to - edit.from, piece);
  }
  return out;
}

}  // namespace ballchange
