#include "base/shade.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <string>
#include <system_error>

#include "base/css_colours.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

double lab_root(double t) {
  constexpr double d = 6.0 / 29;
  return t > d * d * d ? std::cbrt(t) : t / (3 * d * d) + 4.0 / 29;
}

// Degrees in [0, 360); 0 for grey.
double hue(double a, double b) {
  if (a == 0 && b == 0) return 0;
  const double h = std::atan2(b, a) / kDegree;
  return h < 0 ? h + 360 : h;
}

double seventh_power_share(double chroma) {
  const double c7 = std::pow(chroma, 7);
  return std::sqrt(c7 / (c7 + std::pow(25.0, 7)));
}

// The hues' difference and mean, in degrees; both colours have some chroma.
struct Hues {
  double difference;
  double mean;
};
Hues compare_hues(double h1, double h2) {
  const double apart = h2 - h1;
  // Exactly opposite hues come out on either side of 180 by rounding; the margin decides it as the exact value would.
  if (std::abs(apart) <= 180 + 1e-9) return {apart, (h1 + h2) / 2};
  return {apart > 0 ? apart - 360 : apart + 360, h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2};
}

std::optional<Shade> parse_hex(std::string_view digits) {
  if (digits.size() != 3 && digits.size() != 6) return std::nullopt;
  std::uint32_t value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value, 16);
  if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
  const auto part = [value](unsigned shift, std::uint32_t mask) { return (value >> shift) & mask; };
  if (digits.size() == 3) {
    return Shade{static_cast<std::uint8_t>(part(8, 15) * 17), static_cast<std::uint8_t>(part(4, 15) * 17),
                 static_cast<std::uint8_t>(part(0, 15) * 17)};
  }
  return Shade{static_cast<std::uint8_t>(part(16, 255)), static_cast<std::uint8_t>(part(8, 255)),
               static_cast<std::uint8_t>(part(0, 255))};
}

}  // namespace

std::optional<Shade> parse_shade(std::string_view text) {
  if (text.starts_with('#')) return parse_hex(text.substr(1));
  return css_colour(fold_case(text));
}

double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

// The matrix to seven digits: the standard's own four-digit one is off by up to 0.03 in a and b.
Lab to_lab(Shade shade) {
  const double r = linear(shade.red);
  const double g = linear(shade.green);
  const double b = linear(shade.blue);
  const double x = lab_root((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
  const double y = lab_root(0.2126729 * r + 0.7151522 * g + 0.0721750 * b);
  const double z = lab_root((0.0193339 * r + 0.1191920 * g + 0.9503041 * b) / 1.08883);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

// The letters are the paper's.
double colour_difference(const Lab& x, const Lab& y) {
  const double mean_chroma = (std::hypot(x.a, x.b) + std::hypot(y.a, y.b)) / 2;
  const double G = 0.5 * (1 - seventh_power_share(mean_chroma));
  const double a1 = (1 + G) * x.a;
  const double a2 = (1 + G) * y.a;
  const double C1 = std::hypot(a1, x.b);
  const double C2 = std::hypot(a2, y.b);
  const double h1 = hue(a1, x.b);
  const double h2 = hue(a2, y.b);
  const Hues h = C1 * C2 == 0 ? Hues{0, h1 + h2} : compare_hues(h1, h2);

  const double dL = y.L - x.L;
  const double dC = C2 - C1;
  const double dH = 2 * std::sqrt(C1 * C2) * std::sin(h.difference / 2 * kDegree);
  const double L = (x.L + y.L) / 2;
  const double C = (C1 + C2) / 2;
  const double T = 1 - 0.17 * std::cos((h.mean - 30) * kDegree) + 0.24 * std::cos(2 * h.mean * kDegree) +
                   0.32 * std::cos((3 * h.mean + 6) * kDegree) - 0.20 * std::cos((4 * h.mean - 63) * kDegree);
  const double dtheta = 30 * std::exp(-std::pow((h.mean - 275) / 25, 2));
  const double RC = 2 * seventh_power_share(C);
  const double SL = 1 + 0.015 * std::pow(L - 50, 2) / std::sqrt(20 + std::pow(L - 50, 2));
  const double SC = 1 + 0.045 * C;
  const double SH = 1 + 0.015 * C * T;
  const double RT = -std::sin(2 * dtheta * kDegree) * RC;
  const double tL = dL / SL;
  const double tC = dC / SC;
  const double tH = dH / SH;
  return std::sqrt(std::max(0.0, tL * tL + tC * tC + tH * tH + RT * tC * tH));
}

}  // namespace ballchange
