#pragma once
#include <cstddef>
#include <string_view>
#include <vector>

// Numbers with units as they stand in a text, before anybody knows the units: "3 1/2in", "1yd 6in", "50.2 g".
namespace ballchange {

struct Quantity {
  double number = 0;      // finite, >= 0, at most 12 digits written
  std::string_view unit;  // the letters after it, perhaps none
};

// One or more quantities, all of the text. Decimals with a point, fractions (3 1/2, 3½, 1/2). Throws Problem(content)
// that starts with `what` and says what would be right; `wanted` names it, e.g. "a length, like 15 or 3 1/2in".
[[nodiscard]] std::vector<Quantity> parse_quantities(std::string_view text, std::string_view wanted,
                                                     std::string_view what);

// Whether a number may start with this: a digit or a vulgar fraction.
[[nodiscard]] bool starts_number(char32_t c);
// Whether somebody meant a number to start at `at`, with a minus or a bare point before it too; at < text.size().
[[nodiscard]] bool means_number(std::string_view text, std::size_t at);

}  // namespace ballchange
