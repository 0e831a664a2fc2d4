#include "base/scale.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

#include "base/measure.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr double kOunce = 453.59237 / 16;  // NIST Handbook 44, App. C
constexpr double kLogged = 1e-4;           // a log keeps grams to four decimals

bool divides(double step, double mass) { return std::abs(mass / step - std::round(mass / step)) * step < kLogged; }

}  // namespace

Mass step_of(Mass written) {
  constexpr std::array<double, 3> grams{1, 0.1, 0.01};
  constexpr std::array<double, 6> ounces{1, 0.5, 0.25, 0.125, 0.1, 0.05};
  for (const double step : grams) {
    // Two decimals of grams are as likely an ounce's.
    if (step < 0.05) break;
    if (divides(step, written.g())) return Mass::g(step);
  }
  for (const double step : ounces) {
    if (divides(step * kOunce, written.g())) return Mass::g(step * kOunce);
  }
  return Mass::g(divides(grams.back(), written.g()) ? grams.back() : grams.front());
}

std::optional<Mass> step_typed(std::string_view typed) {
  const Mass mass = parse_mass(typed, "mass");
  const std::size_t point = typed.find('.');
  const std::size_t end = std::min(typed.find_first_not_of("0123456789", point + 1), typed.size());
  // One number and one unit.
  const bool one =
      point != std::string_view::npos && typed.find_first_of("0123456789./", end) == std::string_view::npos;
  if (!one || end == point + 1 || typed[end - 1] != '0' || mass <= Mass()) return std::nullopt;
  const std::string_view number = trim(typed.substr(0, end));
  double told = 0;
  const auto [rest, error] = std::from_chars(number.data(), number.data() + number.size(), told);
  if (error != std::errc() || rest != number.data() + number.size() || told <= 0) return std::nullopt;
  constexpr double finest = 0.01;
  const double step = mass.g() / told * std::pow(10.0, -static_cast<double>(end - point - 1));
  const Mass least = Mass::g(std::max(step, finest));
  return least.g() < step_of(mass).g() - kLogged ? std::optional(least) : std::nullopt;
}

Mass rounding_of(Mass step) { return step * (1 / std::sqrt(12.0)); }

}  // namespace ballchange
