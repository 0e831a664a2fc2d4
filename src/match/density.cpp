#include "match/density.hpp"

#include <algorithm>
#include <cmath>

#include "base/normal.hpp"

namespace ballchange::matching {
namespace {

// Beyond these the normal distribution function is 1 or 0 to double precision.
constexpr double surely = 8.4;
constexpr double never = -38;

}  // namespace

void whole_density(const Measured& y, const Block& block, const Model& model, Stretched& out) {
  if (!y.known) {
    out.fill(1);
    return;
  }
  const double variance = block.variance + y.variance;
  const double height = 1 / (root_two_pi * std::sqrt(variance));
  const double step = block.mean * model.ball_plus_minus * 0.25;  // cm from one stretch to the next
  const double middle = y.length - block.mean;                    // what is left at f = 1
  if (step == 0) {
    out.fill(height * std::exp(-middle * middle / (2 * variance)));
    return;
  }
  // The exponent is quadratic along the stretches, so each value is the one before times a factor that itself changes
  // by a constant factor. Going outward from the highest keeps every value falling: no overflow, relative error of some
  // 1e-14.
  const double best = std::clamp(std::round(20 + middle / step), 0.0, 40.0);
  const auto peak = static_cast<std::size_t>(best);
  const double off = middle - (best - 20) * step;
  const double bend = std::exp(-step * step / variance);
  const double here = height * std::exp(-off * off / (2 * variance));
  out[peak] = here;
  double value = here;
  double ratio = std::exp((2 * off * step - step * step) / (2 * variance));
  for (std::size_t i = peak + 1; i < stretches; ++i) {
    value *= ratio;
    ratio *= bend;
    out[i] = value;
  }
  value = here;
  ratio = std::exp((-2 * off * step - step * step) / (2 * variance));
  for (std::size_t i = peak; i-- > 0;) {
    value *= ratio;
    ratio *= bend;
    out[i] = value;
  }
}

void at_least(const Measured& y, const Block& block, const Model& model, Stretched& out) {
  if (!y.known) {
    out.fill(1);
    return;
  }
  // P(X >= y) = P(-X <= -y), which keeps small chances exact.
  const double sd = std::sqrt(block.variance + y.variance);
  if ((block.mean * model.factor.front() - y.length) / sd > surely) {
    out.fill(1);
    return;
  }
  if ((block.mean * model.factor.back() - y.length) / sd < never) {
    out.fill(0);
    return;
  }
  for (std::size_t i = 0; i < stretches; ++i) out[i] = normal_cdf((block.mean * model.factor[i] - y.length) / sd);
}

void from_loose_end(const Measured& y, const Block& others, const Block& cut, bool any_others, const Model& model,
                    Stretched& out) {
  if (!y.known) {
    out.fill(cut.mean / model.total);  // any length: L / R, the stretch cancels
    return;
  }
  const Block both{others.mean + cut.mean, others.variance + cut.variance};
  if (!any_others) {
    at_least(y, both, model, out);
  } else {
    const double sd = std::sqrt(others.variance + y.variance);
    const double sd_both = std::sqrt(both.variance + y.variance);
    for (std::size_t i = 0; i < stretches; ++i) {
      const double reach = (y.length - others.mean * model.factor[i]) / sd;
      const double past = (y.length - both.mean * model.factor[i]) / sd_both;
      // The difference is taken in whichever tail keeps small chances exact.
      const double chance = past < 0 ? normal_cdf(reach) - normal_cdf(past) : normal_cdf(-past) - normal_cdf(-reach);
      out[i] = std::max(0.0, chance);
    }
  }
  for (std::size_t i = 0; i < stretches; ++i) out[i] /= model.factor[i] * model.total;
}

}  // namespace ballchange::matching
