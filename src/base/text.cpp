#include "base/text.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <vector>

#include "base/code_points.hpp"

namespace ballchange {
namespace {

struct Decoded {
  char32_t c;
  std::size_t bytes;
  bool broken;
};
constexpr Decoded kBroken{0xFFFD, 1, true};

// Shortest form only, no surrogates, nothing past U+10FFFF.
Decoded decode(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> char32_t { return static_cast<unsigned char>(text[at + i]); };
  const char32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1, false};
  const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() - at < bytes) return kBroken;
  char32_t c = lead & (0xFFU >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return kBroken;
    c = (c << 6) | (byte(i) & 0x3FU);
  }
  constexpr std::array<char32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};
  if (c < least[bytes] || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return kBroken;
  return {c, bytes, false};
}

void append(std::string& out, char32_t c) {
  const auto put = [&](char32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0 | (c >> 6));
    put(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    put(0xE0 | (c >> 12));
    put(0x80 | ((c >> 6) & 0x3F));
    put(0x80 | (c & 0x3F));
  } else {
    put(0xF0 | (c >> 18));
    put(0x80 | ((c >> 12) & 0x3F));
    put(0x80 | ((c >> 6) & 0x3F));
    put(0x80 | (c & 0x3F));
  }
}

std::vector<char32_t> code_points(std::string_view text) {
  std::vector<char32_t> points;
  for (std::size_t at = 0; at < text.size();) points.push_back(next_code_point(text, at));
  return points;
}

}  // namespace

bool valid_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const Decoded d = decode(text, at);
    if (d.broken) return false;
    at += d.bytes;
  }
  return true;
}

char32_t next_code_point(std::string_view text, std::size_t& at) {
  const Decoded d = decode(text, at);
  at += d.bytes;
  return d.c;
}

std::string printable(std::string_view text, std::size_t most) {
  std::string out;
  std::size_t columns = 0;
  std::size_t cut = 0;  // where the text may end to leave room for the ellipsis
  for (std::size_t at = 0; at < text.size();) {
    const Decoded d = decode(text, at);
    std::string piece(text.substr(at, d.bytes));
    if (d.broken || (d.c < 0x80 && is_unprintable(d.c))) {
      piece = fmt::format("\\x{:02X}", static_cast<unsigned char>(text[at]));
    } else if (is_unprintable(d.c)) {
      piece = fmt::format("\\u{{{:04X}}}", static_cast<unsigned>(d.c));
    }
    at += d.bytes;
    columns += display_width(piece);
    if (columns > most) {
      out.resize(cut);
      return most == 0 ? std::string() : out + "…";
    }
    out += piece;
    if (columns < most) cut = out.size();
  }
  return out;
}

std::string fold_case(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  char32_t base = 0;  // the letter before, for a mark to join
  std::size_t base_at = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Decoded d = decode(text, at);
    const char32_t joined = d.broken ? 0 : with_mark(base, d.c);
    base = joined != 0 ? joined : d.broken ? 0 : lower_case(d.c);
    if (joined != 0) {
      out.resize(base_at);
    } else {
      base_at = out.size();
    }
    if (d.broken) {
      out += text[at];
    } else {
      append(out, base);
    }
    at += d.bytes;
  }
  return out;
}

std::size_t display_width(std::string_view text) {
  std::size_t columns = 0;
  for (std::size_t at = 0; at < text.size();) columns += column_count(next_code_point(text, at));
  return columns;
}

std::string_view trim(std::string_view text) {
  std::size_t first = text.size();
  std::size_t end = text.size();
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t from = at;
    if (is_blank(next_code_point(text, at))) continue;
    if (first == text.size()) first = from;
    end = at;
  }
  return text.substr(first, end - first);
}

std::string without_tabs(std::string_view text) {
  std::string out(text);
  std::replace(out.begin(), out.end(), '\t', ' ');
  return out;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::vector<char32_t> x = code_points(a);
  const std::vector<char32_t> y = code_points(b);
  std::vector<std::size_t> before_last(y.size() + 1);
  std::vector<std::size_t> last(y.size() + 1);
  std::vector<std::size_t> row(y.size() + 1);
  for (std::size_t j = 0; j <= y.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= x.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= y.size(); ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (x[i - 1] == y[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && x[i - 1] == y[j - 2] && x[i - 2] == y[j - 1])
        row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[y.size()];
}

std::optional<std::string> closest(std::string_view word, std::span<const std::string> names) {
  const std::string wanted = fold_case(word);
  const std::size_t size = code_points(wanted).size();
  std::optional<std::string> best;
  std::size_t least = 0;
  for (const std::string& name : names) {
    const std::string folded = fold_case(name);
    const std::size_t other = code_points(folded).size();
    const std::size_t longer = std::max(size, other);
    // Too different in length alone: keeps a very long word from costing its square.
    if (3 * (longer - std::min(size, other)) > longer) continue;
    const std::size_t distance = edit_distance(wanted, folded);
    if (3 * distance > longer || (best && distance >= least)) continue;
    best = name;
    least = distance;
  }
  return best;
}

std::string typed_path(const std::string& path) {
  const bool plain = !path.empty() && path.find_first_not_of(
                                          "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                          "0123456789-_./+,:@%") == std::string::npos;
  if (plain) return path;
  std::string out = "'";
  for (const char c : path) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return printable(out + "'");
}

std::string capital(std::string_view words) {
  std::string out(words);
  if (!out.empty() && out.front() >= 'a' && out.front() <= 'z') out.front() = char(out.front() - 'a' + 'A');
  return out;
}

}  // namespace ballchange
