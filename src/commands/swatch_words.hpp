#pragma once
#include <algorithm>
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "fabric/swatch.hpp"

// What swatches and gauges are read with, word by word.
namespace ballchange {

enum class SwatchPart { stitches, rows };
[[nodiscard]] std::string_view plural(SwatchPart part);

inline constexpr double kMostSwatchCount = 5000;

// Words of one piece, taken from the front.
class SwatchWords {
 public:
  explicit SwatchWords(std::string_view text);

  [[nodiscard]] bool done() const { return text_.empty(); }
  [[nodiscard]] std::string_view rest() const { return text_; }

  // Whether the next word is this (in lower case); it is then taken.
  bool take(std::string_view word);
  bool take_any(std::initializer_list<std::string_view> words);
  // "33 st", "24 rows", "33 1/2 stitches". Nothing, and nothing taken, for what is no count. Throws Problem(content)
  // for a number that can't be read.
  std::optional<std::pair<double, SwatchPart>> count();

 private:
  std::string_view text_;
};

// Calls `on_fault` for what can be neither a stitch nor a row.
void check_part(const Counted& counted, SwatchPart part, const std::function<void(const std::string&)>& on_fault);

}  // namespace ballchange
