#include "creep/filter.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace ballchange::creeping {
namespace {

constexpr std::size_t kLooser = 0, kLonger = 1, kOff = 2;

double root(double variance) { return std::sqrt(std::max(variance, 0.0)); }

}  // namespace

Filter::Filter(const Doubts& doubts) : doubts_(doubts) {
  begin_gauge();
  begin_ball();
}

void Filter::forget(std::size_t part, double variance) {
  for (std::size_t i = 0; i < 3; ++i) covariance_[part][i] = covariance_[i][part] = 0;
  covariance_[part][part] = variance;
  mean_[part] = 0;
}

void Filter::begin_gauge() { forget(kLooser, doubts_.gauge * doubts_.gauge); }
void Filter::tell_gauge(double old_over_new) {
  constexpr double rounding = 0.01;  // as a figure is typed
  const double told = (1 + mean_[kLooser]) * old_over_new - 1;
  const double doubt = root(covariance_[kLooser][kLooser]) * old_over_new;
  const bool seen = doubt < 0.9 * doubts_.gauge;
  if (!seen || std::abs(told) >= std::abs(mean_[kLooser]) || std::abs(told) > 2 * doubt + rounding)
    return begin_gauge();
  mean_[kLooser] = told;
  for (std::size_t i = 0; i < 3; ++i) {
    if (i != kLooser) covariance_[kLooser][i] = covariance_[i][kLooser] *= old_over_new;
  }
  covariance_[kLooser][kLooser] = doubt * doubt;
}

void Filter::begin_ball() { forget(kLonger, doubts_.ball * doubts_.ball); }
void Filter::blur(double variance) { covariance_[kOff][kOff] += variance; }

void Filter::work(Length in_stitches, Length along) {
  const double u = in_stitches.cm();
  const double p = along.cm();
  auto& c = covariance_;
  mean_[kOff] += u * mean_[kLooser] - p * mean_[kLonger];
  Row moved{};  // of x, with t, b and x as they were
  for (std::size_t i = 0; i < 3; ++i) moved[i] = c[kOff][i] + u * c[kLooser][i] - p * c[kLonger][i];
  c[kOff][kOff] = moved[kOff] + u * moved[kLooser] - p * moved[kLonger];
  c[kOff][kLooser] = c[kLooser][kOff] = moved[kLooser];
  c[kOff][kLonger] = c[kLonger][kOff] = moved[kLonger];
  c[kLooser][kLooser] += doubts_.drift * std::abs(u);
}

void Filter::see(Length off, double variance) {
  const double total = covariance_[kOff][kOff] + variance;
  const double surprise = off.cm() - mean_[kOff];
  const Row of_x = covariance_[kOff];
  for (std::size_t i = 0; i < 3; ++i) {
    mean_[i] += of_x[i] / total * surprise;
    for (std::size_t j = 0; j < 3; ++j) covariance_[i][j] -= of_x[i] * of_x[j] / total;
  }
}

void Filter::settle(Length off, double variance) {
  forget(kOff, variance);
  mean_[kOff] = off.cm();
}

Share Filter::looser() const { return {mean_[kLooser], root(covariance_[kLooser][kLooser])}; }
Share Filter::longer() const { return {mean_[kLonger], root(covariance_[kLonger][kLonger])}; }
Share Filter::creep() const {
  const auto& c = covariance_;
  return {mean_[kLooser] - mean_[kLonger], root(c[kLooser][kLooser] - 2 * c[kLooser][kLonger] + c[kLonger][kLonger])};
}

}  // namespace ballchange::creeping
