#pragma once
#include <optional>
#include <span>
#include <string_view>
#include <vector>

// Hooks and needles that are sold: the Craft Yarn Council's tables of sizes.
namespace ballchange {

enum class Tool { hook, needle };

struct ToolSize {
  double mm = 0;
  std::string_view name;  // the US letter and number; may be empty
};
[[nodiscard]] std::span<const ToolSize> sizes(Tool tool);  // from thin to thick

// A tool thicker by a tenth makes stitches wider and taller by about a twentieth, and as much more yarn goes into each
// (common practice, no source): ln(stitch) grows by so much of ln(size).
inline constexpr double kStitchBySize = 0.5;
// What a stitch's width, height and yarn are multiplied by with another size, both in mm and above 0; and the size, in
// mm, that multiplies them so, `times` > 0.
[[nodiscard]] double stitch_by_size(double from_mm, double to_mm);
[[nodiscard]] double size_by_stitch(double from_mm, double times);

struct NamedSize {
  double mm = 0;
  std::vector<double> also;  // what else goes by that name
};
// By a US name: "G", "G-6", "g/6", "10 1/2", "US 8". Of several sizes the roundest in mm is taken. Nothing for a word
// that names none.
[[nodiscard]] std::optional<NamedSize> size_named(Tool tool, std::string_view name);

}  // namespace ballchange
