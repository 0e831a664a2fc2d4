#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>

#include "show/entry_values.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

bool is_number(std::string_view text) {
  if (text.starts_with('+')) text.remove_prefix(1);
  double value = 0;
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  return result.ec == std::errc() && result.ptr == text.data() + text.size() && std::isfinite(value);
}

std::string quoted(std::string_view text) {
  if (text.find_first_of("\",\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string cell(const EntryValue& value) {
  if (const auto* text = std::get_if<std::string>(&value)) return csv_text(*text);
  if (const auto* list = std::get_if<std::vector<std::string>>(&value)) {
    return csv_text(fmt::format("{}", fmt::join(*list, "; ")));
  }
  if (const auto* number = std::get_if<double>(&value)) return fmt::format("{}", std::round(*number * 1e4) / 1e4 + 0.0);
  if (const auto* count = std::get_if<int>(&value)) return fmt::format("{}", *count);
  return std::holds_alternative<bool>(value) ? "yes" : "";
}

}  // namespace

std::string csv_text(std::string_view text) {
  const bool runs = !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
  if (runs && !is_number(text)) return quoted("'" + std::string(text));
  return quoted(text);
}

std::string log_csv(const LogShown& shown) {
  const std::vector<std::string_view>& keys = entry_keys();
  const auto held = joins_held(shown);
  std::string out = fmt::format("n,at,did,cancelled,{},held\r\n", fmt::join(keys, ","));
  for (const std::size_t index : shown.entries) {
    const LogEntry& entry = shown.project.entries[index];
    out += fmt::format("{},{},{},{}", entry.n, format_moment(entry.at), kind_name(entry.what),
                       shown.state.cancelled[index] ? "yes" : "");
    const auto values = entry_values(entry.what, shown.state.ruler);
    for (const std::string_view key : keys) {
      const auto found = std::find_if(values.begin(), values.end(), [&](const auto& v) { return v.first == key; });
      out += ',';
      if (found != values.end()) out += cell(found->second);
    }
    out += fmt::format(",{}\r\n", held[index].value_or(""));
  }
  return out;
}

}  // namespace ballchange
