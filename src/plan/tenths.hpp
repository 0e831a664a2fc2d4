#pragma once
#include <cmath>
#include <cstdint>

#include "base/length.hpp"

// Yarn in whole tenths of a millimetre: sums are exact, so that "the bound is reached" is a plain equality.
namespace ballchange::plan {

using Tenths = std::int64_t;

// To the nearest. A length in stitches (see base/length.hpp) counts hundredths of a stitch.
[[nodiscard]] inline Tenths tenths(Length length) { return std::llround(length.cm() * 100); }
[[nodiscard]] constexpr Length length(Tenths tenths) { return Length::cm(static_cast<double>(tenths) / 100); }

// a modulo period, in [0, period). period > 0.
[[nodiscard]] constexpr Tenths wrapped(Tenths a, Tenths period) {
  const Tenths r = a % period;
  return r < 0 ? r + period : r;
}

}  // namespace ballchange::plan
