#pragma once
#include <optional>
#include <span>
#include <string_view>

#include "fabric/sizes.hpp"

// What is usual in each class of yarn: the Craft Yarn Council's yarn weight system. Guidelines, never limits.
namespace ballchange {

struct UsualRange {
  double low = 0, high = 0;
};
struct YarnClass {
  int number = 0;
  std::string_view name;
  UsualRange knit_stitches, needle_mm;   // stitches to 4 in, in stocking stitch
  UsualRange crochet_stitches, hook_mm;  // in single crochet; class 0 in double crochet
};
[[nodiscard]] std::span<const YarnClass> yarn_classes();
// "3", "light", "super fine" or "super-fine", case ignored. Nothing for a word that names none.
[[nodiscard]] const YarnClass* yarn_class_named(std::string_view word);

enum class Against { within, below, above };
// Counts as whole stitches, so that 17.3 is within 12 to 17.
[[nodiscard]] Against against_stitches(const UsualRange& usual, double stitches_in_4in);
[[nodiscard]] Against against_size(const UsualRange& usual, double mm);

}  // namespace ballchange
