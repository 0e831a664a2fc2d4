#include "base/number.hpp"

#include <fmt/core.h>

#include <charconv>
#include <system_error>

namespace ballchange {

std::string plain_number(double value, int decimals) {
  std::string digits = fmt::format("{:.{}f}", value, decimals);
  if (digits.find('.') != std::string::npos) {
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') digits.pop_back();
  }
  return digits == "-0" ? "0" : digits;
}

std::optional<int> whole_number(std::string_view word, int least, int most) {
  int value = 0;
  const char* end = word.data() + word.size();
  const auto read = std::from_chars(word.data(), end, value);
  const bool good = read.ec == std::errc() && read.ptr == end && value >= least && value <= most;
  return good ? std::optional(value) : std::nullopt;
}

}  // namespace ballchange
