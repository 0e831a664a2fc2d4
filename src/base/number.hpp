#pragma once
#include <string>

namespace ballchange {

// "48.5", "48", "0": at most `decimals` decimals and none that say nothing; never an exponent or "-0".
[[nodiscard]] std::string plain_number(double value, int decimals);

}  // namespace ballchange
