#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace ballchange {

// "48.5", "48", "0": at most `decimals` decimals and none that say nothing; never an exponent or "-0".
[[nodiscard]] std::string plain_number(double value, int decimals);
// "41", with nothing before or after it; nothing for any other word and for what is not from `least` to `most`.
[[nodiscard]] std::optional<int> whole_number(std::string_view word, int least, int most);

}  // namespace ballchange
