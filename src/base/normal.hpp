#pragma once

// The normal and chi-square distributions, as far as the matcher needs them.
namespace ballchange {

[[nodiscard]] double normal_cdf(double z);       // P(Z <= z)
[[nodiscard]] double normal_quantile(double p);  // 0 < p < 1
// P(X > x) for a chi-square with k degrees of freedom, k >= 1, x >= 0.
[[nodiscard]] double chi_square_tail(double x, double k);

// Nine in ten lie within so many standard deviations: the program's "give or take".
inline constexpr double kNineInTen = 1.6448536269514722;

}  // namespace ballchange
