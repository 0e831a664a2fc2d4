#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.hpp"

// Writes JSON (RFC 8259) on one line: numbers with at most 4 decimals, strings that stay valid and harmless on a
// terminal whatever bytes came in.
namespace ballchange {

class Json {
 public:
  Json& object();
  Json& array();
  Json& end();  // of the innermost object or array
  Json& key(std::string_view name);
  Json& text(std::string_view value);
  Json& number(double value);  // null for NaN and infinities
  Json& integer(long long value);
  Json& boolean(bool value);
  Json& null();

  Json& member(std::string_view name, std::string_view value) { return key(name).text(value); }
  Json& member(std::string_view name, const char* value) { return key(name).text(value); }
  Json& member(std::string_view name, double value) { return key(name).number(value); }
  Json& member(std::string_view name, Length value) { return key(name).number(value.cm()); }
  Json& member(std::string_view name, bool value) { return key(name).boolean(value); }
  Json& member(std::string_view name, int value) { return key(name).integer(value); }
  Json& member(std::string_view name, std::size_t value) { return key(name).integer(static_cast<long long>(value)); }
  // Null when there is none.
  template <class Value>
  Json& member(std::string_view name, const std::optional<Value>& value) {
    if (value) return member(name, *value);
    return key(name).null();
  }

  // The finished text with a line end. Every object and array must have been ended: asserted.
  [[nodiscard]] std::string take();

 private:
  void separate();
  std::string text_;
  std::vector<char> open_;  // the closing brackets still owed
  bool first_ = true;       // nothing written yet at this level
  bool after_key_ = false;
};

// What lengths without a unit of their own are told in.
Json& unit_member(Json& json, bool in_stitches);

}  // namespace ballchange
