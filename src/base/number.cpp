#include "base/number.hpp"

#include <fmt/core.h>

namespace ballchange {

std::string plain_number(double value, int decimals) {
  std::string digits = fmt::format("{:.{}f}", value, decimals);
  if (digits.find('.') != std::string::npos) {
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') digits.pop_back();
  }
  return digits == "-0" ? "0" : digits;
}

}  // namespace ballchange
