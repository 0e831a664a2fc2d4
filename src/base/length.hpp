#pragma once
#include <cmath>
#include <compare>

// Quantities as types. A Length is yarn laid straight, not stretched, in centimetres; for a yarn that is
// reckoned in stitches throughout (see yarn/yarn.hpp) the same number counts stitches instead.
namespace ballchange {

class Length {
 public:
  constexpr Length() = default;
  static constexpr Length cm(double value) { return Length(value); }
  [[nodiscard]] constexpr double cm() const { return value_; }

  constexpr Length operator-() const { return Length(-value_); }
  constexpr Length& operator+=(Length o) {
    value_ += o.value_;
    return *this;
  }
  constexpr Length& operator-=(Length o) {
    value_ -= o.value_;
    return *this;
  }
  friend constexpr Length operator+(Length a, Length b) { return Length(a.value_ + b.value_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.value_ - b.value_); }
  friend constexpr Length operator*(Length a, double k) { return Length(a.value_ * k); }
  friend constexpr Length operator*(double k, Length a) { return Length(a.value_ * k); }
  friend constexpr Length operator/(Length a, double k) { return Length(a.value_ / k); }
  friend constexpr double operator/(Length a, Length b) { return a.value_ / b.value_; }
  friend constexpr auto operator<=>(Length, Length) = default;

 private:
  explicit constexpr Length(double value) : value_(value) {}
  double value_ = 0;
};

constexpr Length operator""_cm(long double v) { return Length::cm(static_cast<double>(v)); }
constexpr Length operator""_cm(unsigned long long v) { return Length::cm(static_cast<double>(v)); }
constexpr Length abs(Length a) { return a < Length() ? -a : a; }

// a modulo period, in [0, period). period > 0.
inline Length wrap(Length a, Length period) {
  const double r = std::fmod(a.cm(), period.cm());
  const double w = r < 0 ? r + period.cm() : r;
  return Length::cm(w >= period.cm() ? 0 : w);
}

// a modulo period, nearest to zero, in (-period/2, period/2]. period > 0.
inline Length nearest(Length a, Length period) {
  const Length w = wrap(a, period);
  return w > period / 2 ? w - period : w;
}

// A mass in grams.
class Mass {
 public:
  constexpr Mass() = default;
  static constexpr Mass g(double value) { return Mass(value); }
  [[nodiscard]] constexpr double g() const { return value_; }
  friend constexpr Mass operator*(Mass a, double k) { return Mass(a.value_ * k); }
  friend constexpr double operator/(Mass a, Mass b) { return a.value_ / b.value_; }
  friend constexpr auto operator<=>(Mass, Mass) = default;

 private:
  explicit constexpr Mass(double value) : value_(value) {}
  double value_ = 0;
};

}  // namespace ballchange
