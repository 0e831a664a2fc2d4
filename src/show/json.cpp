#include "show/json.hpp"

#include <fmt/core.h>

#include <cassert>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

void append_escape(std::string& out, char32_t c) {
  if (c > 0xFFFF) {
    const auto pair = static_cast<unsigned>(c - 0x10000);
    out += fmt::format("\\u{:04x}\\u{:04x}", 0xD800U + (pair >> 10U), 0xDC00U + (pair & 0x3FFU));
  } else {
    out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
  }
}

std::string quoted(std::string_view value) {
  std::string out = "\"";
  for (std::size_t at = 0; at < value.size();) {
    const std::size_t from = at;
    const char32_t c = next_code_point(value, at);
    if (c == U'"' || c == U'\\') {
      out += '\\';
      out += static_cast<char>(c);
    } else if (c == 0xFFFD || is_unprintable(c)) {
      append_escape(out, c);
    } else {
      out += value.substr(from, at - from);
    }
  }
  return out + '"';
}

}  // namespace

void Json::separate() {
  if (!first_ && !after_key_) text_ += ',';
  first_ = false;
  after_key_ = false;
}

Json& Json::object() {
  separate();
  text_ += '{';
  open_.push_back('}');
  first_ = true;
  return *this;
}

Json& Json::array() {
  separate();
  text_ += '[';
  open_.push_back(']');
  first_ = true;
  return *this;
}

Json& Json::end() {
  assert(!open_.empty());
  text_ += open_.back();
  open_.pop_back();
  first_ = false;
  return *this;
}

Json& Json::key(std::string_view name) {
  separate();
  text_ += quoted(name);
  text_ += ':';
  after_key_ = true;
  return *this;
}

Json& Json::text(std::string_view value) {
  separate();
  text_ += quoted(value);
  return *this;
}

Json& Json::number(double value) {
  if (!std::isfinite(value)) return null();
  separate();
  const std::string digits = plain_number(value, 4);
  text_ += digits;
  if (digits.find('.') == std::string::npos) text_ += ".0";
  return *this;
}

Json& Json::integer(long long value) {
  separate();
  text_ += fmt::format("{}", value);
  return *this;
}

Json& Json::boolean(bool value) {
  separate();
  text_ += value ? "true" : "false";
  return *this;
}

Json& Json::null() {
  separate();
  text_ += "null";
  return *this;
}

std::string Json::take() {
  assert(open_.empty());
  return std::exchange(text_, {}) + "\n";
}

Json& unit_member(Json& json, bool in_stitches) { return json.member("unit", in_stitches ? "st" : "cm"); }

}  // namespace ballchange
