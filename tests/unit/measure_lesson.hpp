#pragma once
#include <string>
#include <vector>

#include "measure/learn.hpp"

// Strands, as they are written down, and what is learnt of them.
namespace ballchange {

struct Lesson {
  Palette palette{{}, true};
  std::vector<MeasuredStrand> strands;
  LearnOptions options;

  explicit Lesson(const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
      strands.push_back({parse_reading(text, End::new_end, palette, Ruler{}, "--strand"), {}});
    }
  }
  [[nodiscard]] Learnt learn() const { return ballchange::learn(strands, palette.colours, options); }
  [[nodiscard]] Learnt learn_first() const { return ballchange::learn({strands.front()}, palette.colours, options); }
};

// "plum 92, sand 11": rounded to whole centimetres.
inline std::string told(const Repeat& repeat) {
  std::string text;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    if (k > 0) text += ", ";
    text += repeat.name_of(k) + " " + std::to_string(static_cast<int>(repeat.sections()[k].length.cm() + 0.5));
  }
  return text;
}

inline constexpr const char* kTwoRounds =
    "plum 40, sand 11, rust 82, moss 14, plum 94, sand 10, rust 78, moss 15, plum 91, sand 12";

}  // namespace ballchange
