#pragma once
#include <optional>
#include <span>
#include <string_view>
#include <vector>

// Hooks and needles that are sold, and the gauge usual in each class of yarn: the Craft Yarn Council's tables of sizes
// and its yarn weight system.
namespace ballchange {

enum class Tool { hook, needle };

struct ToolSize {
  double mm = 0;
  std::string_view name;  // the US letter and number; may be empty
};
[[nodiscard]] std::span<const ToolSize> sizes(Tool tool);  // from thin to thick
[[nodiscard]] const ToolSize& nearest_size(Tool tool, double mm);

struct NamedSize {
  double mm = 0;
  std::vector<double> also;  // what else goes by that name
};
// By a US name: "G", "G-6", "g/6", "10 1/2", "US 8". Of several sizes the roundest in mm is taken. Nothing for a word
// that names none.
[[nodiscard]] std::optional<NamedSize> size_named(Tool tool, std::string_view name);

struct Range {
  double low = 0, high = 0;
};
struct YarnClass {
  int number = 0;
  std::string_view name;
  Range knit_stitches, needle_mm;   // stitches to 4 in, in stocking stitch
  Range crochet_stitches, hook_mm;  // in single crochet; class 0 in double crochet
};
[[nodiscard]] std::span<const YarnClass> yarn_classes();

}  // namespace ballchange
