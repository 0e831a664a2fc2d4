#include "show/text.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr double kInch = 2.54;
constexpr double kYard = 91.44;

std::string quarters(double inches) {
  static constexpr std::array<std::string_view, 4> kParts{"", "1/4", "1/2", "3/4"};
  const long count = std::lround(inches * 4);
  const long whole = count / 4;
  const std::string_view part = kParts[static_cast<std::size_t>(count % 4)];
  if (part.empty()) return fmt::format("{}", whole);
  return whole == 0 ? std::string(part) : fmt::format("{} {}", whole, part);
}

struct Said {
  std::string number;
  std::string_view unit;
};

Said said(Length length, Told told) {
  const double value = std::abs(length.cm());
  switch (told) {
    case Told::stitches:
      return {fmt::format("{}", std::lround(value)), std::lround(value) == 1 ? "stitch" : "stitches"};
    case Told::inches:
      if (value >= 10 * kYard) return {plain_number(value / kYard, 1), "yd"};
      return {quarters(value / kInch), "in"};
    case Told::centimetres:
      break;
  }
  if (value >= 99.75) return {plain_number(value / 100, 2), "m"};
  return {plain_number(std::round(value * 2) / 2, 1), "cm"};
}

double step_of(Told told) {
  switch (told) {
    case Told::stitches:
      return 1;
    case Told::inches:
      return kInch / 4;
    case Told::centimetres:
      break;
  }
  return 0.5;
}

// Of lengths that are only known so well; the tape's own where it is no coarser.
double step_of(Told told, Length doubt) {
  constexpr double hand = 10;  // from here on what a tape holds says too much
  const double wide = std::abs(doubt.cm());
  if (wide < hand) return step_of(told);
  if (told != Told::inches) return std::pow(10, std::floor(std::log10(wide) + 1e-9));
  return wide >= 10 * kYard ? 10 * kYard : wide >= kYard ? kYard : 4 * kInch;
}

// In steps of 1, 2 and 5, so that rounding up adds a quarter at most.
double series_step(double wide) {
  const double decade = std::pow(10, std::floor(std::log10(wide) + 1e-9));
  const double leading = wide / decade;
  return decade * (leading <= 2 ? 0.2 : leading <= 5 ? 0.5 : 1);
}

double doubt_step(Length doubt, Told told) {
  const double wide = std::abs(doubt.cm());
  if (step_of(told, doubt) <= step_of(told)) return step_of(told);
  if (told != Told::inches) return series_step(wide);
  if (wide < kYard) return wide <= 10 * kInch ? kInch : 2 * kInch;
  return std::max(0.5, series_step(wide / kYard)) * kYard;
}

// Nothing where it would come to nothing.
std::optional<Length> coarser(Length length, Told told, Length doubt) {
  const double step = step_of(told, doubt);
  const double steps = std::round(std::abs(length.cm()) / step);
  if (step <= step_of(told) || steps < 1) return std::nullopt;
  return Length::cm(steps * step);
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  bool glue = false;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t stop = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, stop - at);
    at = stop + 1;
    if (word.empty()) continue;
    if (glue) {
      words.back() += ' ';
      words.back() += word;
    } else {
      words.emplace_back(word);
    }
    glue = word.find_first_not_of("0123456789./") == std::string_view::npos && word.back() != '.';
  }
  return words;
}

std::string hanging(std::string start, std::size_t indent, std::string_view text, std::size_t columns) {
  std::string line = std::move(start);
  std::string out;
  std::size_t used = indent;
  bool first = true;
  for (const std::string& word : words_of(text)) {
    const std::size_t wide = display_width(word);
    if (!first && used + 1 + wide > columns) {
      out += line + "\n";
      line = std::string(indent, ' ');
      used = indent;
      first = true;
    }
    if (!first) line += ' ';
    used += wide + (first ? 0 : 1);
    line += word;
    first = false;
  }
  return out + line + "\n";
}

// What a bare number means to somebody who is told lengths so.
Ruler ruler_of(Told told) {
  switch (told) {
    case Told::stitches:
      return {Unit::st, std::nullopt, true};
    case Told::inches:
      return {Unit::in, std::nullopt, false};
    case Told::centimetres:
      break;
  }
  return {};
}

}  // namespace

std::string tape(Length length, Told told) {
  const Said s = said(length, told);
  return fmt::format("{} {}", s.number, s.unit);
}

std::string inches(Length length) { return quarters(std::abs(length.cm()) / kInch) + " in"; }

std::string section_length(Length length, Told told) {
  const double value = std::abs(length.cm());
  if (told == Told::inches && value >= 4 * kYard) return plain_number(value / kYard, 1) + " yd";
  return tape(length, told);
}

std::string tape(Length length, Told told, Length doubt) {
  const std::optional<Length> coarse = coarser(length, told, doubt);
  return coarse ? amount(*coarse, told) : tape(length, told);
}

std::string tape_range(Length low, Length high, Told told) {
  const Said from = said(low, told);
  const bool alike = from.unit == said(high, told).unit;
  return fmt::format("{} to {}", alike ? from.number : tape(low, told), tape(high, told));
}

std::string amount(Length length, Told told) {
  const double value = std::abs(length.cm());
  if (told == Told::inches && value >= kYard) return plain_number(value / kYard, 1) + " yd";
  return tape(length, told);
}

std::string amount(Length length, Told told, Length doubt) {
  return amount(coarser(length, told, doubt).value_or(length), told);
}

std::string at_least(Length length, Told told) {
  const auto up = [value = std::abs(length.cm())](double step) {
    return std::max(1.0, std::ceil(value / step - 1e-9)) * step;
  };
  const double value = std::abs(length.cm());
  switch (told) {
    case Told::stitches:
      return tape(Length::cm(up(value < 20 ? 1 : 5)), told);
    case Told::inches:
      if (value <= 2 * kYard) return tape(Length::cm(up(2 * kInch)), told);
      return quarters(up(value <= 10 * kYard ? kYard / 4 : kYard) / kYard) + " yd";
    case Told::centimetres:
      break;
  }
  return amount(Length::cm(up(value <= 200 ? 5 : value <= 1000 ? 10 : 100)), told);
}

Length rounded_up(Length length, Told told) {
  const double step = step_of(told);
  return Length::cm(std::ceil(length.cm() / step - 1e-6) * step);
}

Length rounded_down(Length length, Told told) {
  const double step = step_of(told);
  return Length::cm(std::floor(length.cm() / step + 1e-6) * step);
}

Length rounded(Length length, Told told) {
  const double step = step_of(told);
  return Length::cm(std::round(length.cm() / step) * step);
}

std::string typed_length(Length length, Told told) {
  return plain_number(length.cm() / (told == Told::inches ? kInch : 1), 2);
}

std::string give_or_take(Length half_width, Told told) {
  const double step = doubt_step(half_width, told);
  const double wide = std::max(1.0, std::ceil(std::abs(half_width.cm()) / step - 1e-9)) * step;
  if (told == Told::inches && wide >= kYard - 1e-9) return plain_number(wide / kYard, 1) + " yd";
  return tape(Length::cm(wide), told);
}

bool is_nothing(Length length, Told told) { return std::abs(length.cm()) < step_of(told) / 2; }

std::string percent(double share) {
  if (share > 0.995) return "over 99 %";
  const auto whole = static_cast<long>(std::floor(share * 100 + 1e-9));
  return whole < 1 ? "under 1 %" : fmt::format("{} %", whole);
}

std::string stitches(long count) { return fmt::format("{} {}", count, count == 1 ? "stitch" : "stitches"); }

std::string and_list(const std::vector<std::string>& names) {
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) out += i + 1 == names.size() ? " and " : ", ";
    out += names[i];
  }
  return out;
}

std::string typed_reading(const Reading& reading, const std::vector<Colour>& colours, Told told) {
  const std::string text = format_reading(reading, colours, ruler_of(told));
  // Only these mean something to a shell inside double quotes, and a name can hold no quote of either kind.
  const char quote = text.find_first_of("$`\\!") == std::string::npos ? '"' : '\'';
  return quote + text + quote;
}

std::string labelled(std::string_view label, std::string_view text, std::size_t columns) {
  std::string start(label);
  start.resize(std::max(kLabelWidth, start.size() + 1), ' ');
  const std::size_t indent = start.size();
  return hanging(std::move(start), indent, text, columns);
}

std::string wrapped(std::string_view text, std::size_t columns) { return hanging({}, 0, text, columns); }

std::string plain_ascii(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (c < 0x80) {
      out += static_cast<char>(c);
    } else if (c == U'·') {
      out += '.';
    } else if (c == U'…') {
      out += "...";
    } else {
      out += '?';
    }
  }
  return out;
}

std::string stitch_amount(Length stitch, Told told) {
  return told == Told::inches ? fmt::format("{:.3f} in", stitch / 2.54_cm) : fmt::format("{:.2f} cm", stitch.cm());
}

std::string shift_words(Length shift, Told told) {
  if (is_nothing(shift, told)) return "in step";
  return fmt::format("{} {}", tape(shift, told), shift > Length() ? "skipped" : "repeated");
}

}  // namespace ballchange
