#include "base/normal.hpp"

#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>

namespace ballchange {
namespace {

// One rational approximation of algorithm AS 241 (Wichura, Applied Statistics 37(3), 1988, PPND16; relative error
// about 1e-16): numerator and denominator, lowest power first.
struct Rational {
  std::array<double, 8> above;
  std::array<double, 8> below;

  [[nodiscard]] double at(double x) const {
    double a = above[7];
    double b = below[7];
    for (std::size_t i = 7; i-- > 0;) {
      a = a * x + above[i];
      b = b * x + below[i];
    }
    return a / b;
  }
};

constexpr Rational kMiddle{
    {3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
     4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3},
    {1.0, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3, 2.1213794301586595867e4,
     3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3}};
constexpr Rational kTail{
    {1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0,
     1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4},
    {1.0, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1, 1.48103976427480074590e-1,
     1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9}};
constexpr Rational kFarTail{
    {6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0, 2.96560571828504891230e-1,
     2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7},
    {1.0, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2, 7.86869131145613259100e-4,
     1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15}};

constexpr double kTiny = 1e-300;
constexpr double kEnough = std::numeric_limits<double>::epsilon() / 4;
constexpr int kMostTerms = 100'000;

// The lower incomplete gamma function by its series, as a share of the whole. x < a + 1, where it converges fast.
double gamma_head(double a, double x, double factor) {
  double term = 1 / a;
  double sum = term;
  for (int n = 1; n < kMostTerms && term > sum * kEnough; ++n) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * factor;
}

// The upper one by its continued fraction (modified Lentz). x >= a + 1.
double gamma_tail(double a, double x, double factor) {
  double b = x + 1 - a;
  double c = 1 / kTiny;
  double d = 1 / b;
  double h = d;
  for (int i = 1; i < kMostTerms; ++i) {
    const double an = -i * (i - a);
    b += 2;
    d = an * d + b;
    if (std::abs(d) < kTiny) d = kTiny;
    c = b + an / c;
    if (std::abs(c) < kTiny) c = kTiny;
    d = 1 / d;
    const double step = d * c;
    h *= step;
    if (std::abs(step - 1) < 4 * kEnough) break;
  }
  return h * factor;
}

}  // namespace

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_quantile(double p) {
  assert(p > 0 && p < 1);
  const double q = p - 0.5;
  if (std::abs(q) <= 0.425) return q * kMiddle.at(0.180625 - q * q);
  const double r = std::sqrt(-std::log(q < 0 ? p : 1 - p));
  const double z = r <= 5 ? kTail.at(r - 1.6) : kFarTail.at(r - 5);
  return q < 0 ? -z : z;
}

double chi_square_tail(double x, double k) {
  assert(x >= 0 && k >= 1);
  if (x <= 0) return 1;
  const double a = k / 2;
  const double half = x / 2;
  const double factor = std::exp(a * std::log(half) - half - std::lgamma(a));
  return half < a + 1 ? 1 - gamma_head(a, half, factor) : gamma_tail(a, half, factor);
}

}  // namespace ballchange
