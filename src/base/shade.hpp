#pragma once
#include <cstdint>
#include <optional>
#include <string_view>

// A colour's shade in sRGB (IEC 61966-2-1) and how different two look.
namespace ballchange {

struct Shade {
  std::uint8_t red = 0, green = 0, blue = 0;
  friend bool operator==(const Shade&, const Shade&) = default;
};

// CIELAB, D65.
struct Lab {
  double L = 0, a = 0, b = 0;
};

// "#5b2a59", "#abc" or a CSS colour name, case ignored; nothing for anything else.
[[nodiscard]] std::optional<Shade> parse_shade(std::string_view text);
// One channel as light: 0 none, 1 full.
[[nodiscard]] double linear(std::uint8_t channel);
[[nodiscard]] Lab to_lab(Shade shade);
// CIEDE2000: Sharma, Wu, Dalal, Color Research and Application 30(1), 2005; kL = kC = kH = 1.
[[nodiscard]] double colour_difference(const Lab& x, const Lab& y);

}  // namespace ballchange
