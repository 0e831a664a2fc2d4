#include "base/quantity.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

#include "base/code_points.hpp"
#include "base/problem.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

struct Vulgar {
  char32_t c;
  double value;
};
constexpr std::array<Vulgar, 18> kVulgar{{{U'¼', 1.0 / 4},
                                          {U'½', 1.0 / 2},
                                          {U'¾', 3.0 / 4},
                                          {U'⅐', 1.0 / 7},
                                          {U'⅑', 1.0 / 9},
                                          {U'⅒', 1.0 / 10},
                                          {U'⅓', 1.0 / 3},
                                          {U'⅔', 2.0 / 3},
                                          {U'⅕', 1.0 / 5},
                                          {U'⅖', 2.0 / 5},
                                          {U'⅗', 3.0 / 5},
                                          {U'⅘', 4.0 / 5},
                                          {U'⅙', 1.0 / 6},
                                          {U'⅚', 5.0 / 6},
                                          {U'⅛', 1.0 / 8},
                                          {U'⅜', 3.0 / 8},
                                          {U'⅝', 5.0 / 8},
                                          {U'⅞', 7.0 / 8}}};
constexpr std::size_t kMostDigits = 12;
constexpr std::size_t kMostParts = 4;

std::optional<double> vulgar(char32_t c) {
  for (const Vulgar& v : kVulgar) {
    if (v.c == c) return v.value;
  }
  return std::nullopt;
}

bool is_digit(char32_t c) { return c >= '0' && c <= '9'; }
bool is_minus(char32_t c) { return c == '-' || c == U'−' || (c >= 0x2010 && c <= 0x2015); }
bool is_letter(char32_t c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

class Scanner {
 public:
  Scanner(std::string_view text, std::string_view wanted, std::string_view what)
      : text_(text), wanted_(wanted), what_(what) {}

  std::vector<Quantity> all() {
    std::vector<Quantity> parts;
    skip_spaces();
    if (done()) refuse_quantity(fmt::format("nothing written: write {}", wanted_));
    while (!done()) {
      if (!starts_number(peek())) refuse_start(parts.empty());
      if (parts.size() == kMostParts) refuse_whole();
      const double number = this->number();
      skip_spaces();
      refuse_exponent();
      const std::size_t from = at_;
      while (!done() && is_letter(peek())) step();
      parts.push_back({number, text_.substr(from, at_ - from)});
      skip_spaces();
    }
    return parts;
  }

 private:
  [[nodiscard]] bool done() const { return at_ >= text_.size(); }
  [[nodiscard]] char32_t peek() const {
    std::size_t at = at_;
    return done() ? U'\0' : next_code_point(text_, at);
  }
  void step() { (void)next_code_point(text_, at_); }
  void skip_spaces() {
    while (!done() && is_blank(peek())) step();
  }

  [[noreturn]] void refuse_quantity(std::string_view why) const {
    throw Problem(Fault::content, fmt::format("{}: {}", what_, why));
  }
  [[noreturn]] void refuse_whole() const {
    refuse_quantity(fmt::format("'{}' is not {}", printable(trim(text_), 40), wanted_));
  }
  [[noreturn]] void refuse_start(bool first) const {
    const std::string whole = printable(trim(text_), 40);
    if (is_minus(peek()) && first) refuse_quantity(fmt::format("'{}' is below zero: leave out the minus", whole));
    if (is_minus(peek()))
      refuse_quantity(fmt::format("'{}' has a dash in it: write one number, like 15 or 3 1/2", whole));
    if (peek() == '.' && means_number(text_, at_)) {
      refuse_quantity(
          fmt::format("'{}' has no digit before the point: write 0{}", whole, printable(trim(text_.substr(at_)), 40)));
    }
    refuse_whole();
  }

  // "1e-1", "2E3": what follows the number would otherwise be taken for a unit.
  void refuse_exponent() const {
    if (done() || (text_[at_] != 'e' && text_[at_] != 'E')) return;
    const std::size_t sign = std::min(text_.find_first_not_of("+-", at_ + 1), text_.size());
    if (sign == text_.size() || !is_digit(static_cast<unsigned char>(text_[sign]))) return;
    refuse_quantity(
        fmt::format("'{}' has an exponent: write the number out, like 1500 or 0.1", printable(trim(text_), 40)));
  }

  std::string_view digits() {
    const std::size_t from = at_;
    while (!done() && is_digit(peek())) step();
    if (at_ - from > kMostDigits) refuse_quantity(fmt::format("a number has at most {} digits", kMostDigits));
    return text_.substr(from, at_ - from);
  }

  static double value(std::string_view written) {
    double number = 0;
    std::from_chars(written.data(), written.data() + written.size(), number);
    return number;
  }

  // "15", "15.5", "3 1/2", "3½", "½", "1/2"
  double number() {
    if (const auto alone = vulgar(peek())) {
      step();
      return *alone;
    }
    const std::size_t from = at_;
    const std::string_view whole = digits();
    if (peek() == '.') return decimal(from);
    if (peek() == ',') refuse_comma(whole);
    if (at_slash()) return over(value(whole));
    return value(whole) + fraction_after(value(whole));
  }

  double decimal(std::size_t from) {
    step();
    const std::string_view decimals = digits();
    const std::string_view written = text_.substr(from, at_ - from);
    if (peek() == '.')
      refuse_quantity(fmt::format("'{}' has two points in it: write it with one", printable(trim(text_), 40)));
    if (decimals.empty()) refuse_quantity(fmt::format("'{}' breaks off after the point: write {}0", written, written));
    if (written.size() > kMostDigits + 1) refuse_quantity(fmt::format("a number has at most {} digits", kMostDigits));
    if (peek() == ',') refuse_comma(written);
    return value(written);
  }

  [[noreturn]] void refuse_comma(std::string_view whole) {
    step();
    const std::string_view decimals = digits();
    if (decimals.empty()) refuse_whole();
    refuse_quantity(fmt::format("decimals take a point: write {}.{}", whole, decimals));
  }

  [[nodiscard]] bool at_slash() const { return peek() == '/' || peek() == U'⁄'; }

  // The denominator, from its slash on.
  double over(double numerator) {
    step();
    const double denominator = value(digits());
    if (denominator <= 0) refuse_whole();
    return numerator / denominator;
  }

  // The proper fraction that may follow a whole number: "3½", "3 ½", "3 1/2".
  double fraction_after(double whole) {
    const std::size_t back = at_;
    skip_spaces();
    if (const auto part = vulgar(peek())) {
      step();
      return *part;
    }
    const bool apart = at_ > back;
    const std::string_view numerator = digits();
    if (apart && !numerator.empty() && at_slash()) {
      const double part = over(value(numerator));
      if (part >= 1) refuse_quantity(fmt::format("{} and a fraction of one or more: write a plain number", whole));
      return part;
    }
    at_ = back;
    return 0;
  }

  std::string_view text_;
  std::string_view wanted_;
  std::string_view what_;
  std::size_t at_ = 0;
};

}  // namespace

bool starts_number(char32_t c) { return is_digit(c) || vulgar(c).has_value(); }

bool means_number(std::string_view text, std::size_t at) {
  char32_t c = next_code_point(text, at);
  if (is_minus(c)) {
    do {
      if (at >= text.size()) return false;
      c = next_code_point(text, at);
    } while (is_blank(c));
  }
  if (c == '.' && at < text.size()) return is_digit(next_code_point(text, at));
  return starts_number(c);
}

std::vector<Quantity> parse_quantities(std::string_view text, std::string_view wanted, std::string_view what) {
  return Scanner(text, wanted, what).all();
}

}  // namespace ballchange
