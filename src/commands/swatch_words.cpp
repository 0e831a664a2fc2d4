#include "commands/swatch_words.hpp"

#include <fmt/core.h>

#include "base/number.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr Length kLeastPart = 0.08_cm, kMostPart = 15_cm;  // a stitch's width or a row's height

std::size_t first_letter(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size() && !((text[at] | 0x20) >= 'a' && (text[at] | 0x20) <= 'z')) ++at;
  return at;
}

}  // namespace

std::string_view plural(SwatchPart part) { return part == SwatchPart::stitches ? "stitches" : "rows"; }

SwatchWords::SwatchWords(std::string_view text) : text_(trim(text)) {}

bool SwatchWords::take(std::string_view word) {
  const std::string_view next = text_.substr(0, std::min(text_.find(' '), text_.size()));
  if (fold_case(next) != word) return false;
  text_ = trim(text_.substr(next.size()));
  return true;
}

bool SwatchWords::take_any(std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(), [this](std::string_view word) { return take(word); });
}

std::optional<std::pair<double, SwatchPart>> SwatchWords::count() {
  const std::size_t letter = first_letter(text_);
  if (letter == 0 || letter == text_.size() || !means_number(text_, 0)) return std::nullopt;
  const SwatchWords back = *this;
  const std::string_view number = text_.substr(0, letter);
  text_ = text_.substr(letter);
  std::optional<SwatchPart> part;
  if (take_any({"st", "sts", "stitch", "stitches"})) part = SwatchPart::stitches;
  if (!part && take_any({"row", "rows", "round", "rounds", "rnd", "rnds"})) part = SwatchPart::rows;
  if (!part) {
    *this = back;
    return std::nullopt;
  }
  const auto parts = parse_quantities(number, "a count, like 33", "count");
  return std::pair(parts.front().number, *part);
}

void check_part(const Counted& counted, SwatchPart part, const std::function<void(const std::string&)>& on_fault) {
  if (!(counted.count >= 1 && counted.count <= kMostSwatchCount)) {
    on_fault(
        fmt::format("{} {}: write from 1 to {:.0f}", plain_number(counted.count, 2), plural(part), kMostSwatchCount));
  }
  const Length one = counted.over / counted.count;
  if (one >= kLeastPart && one <= kMostPart) return;
  on_fault(fmt::format("{} {} over {} cm make each {} cm: one is from 0.08 to 15 cm; look at the count and the unit",
                       plain_number(counted.count, 2), plural(part), plain_number(counted.over.cm(), 2),
                       plain_number(one.cm(), 3)));
}

}  // namespace ballchange
