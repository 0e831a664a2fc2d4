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

struct NamedSize {
  double mm = 0;
  std::vector<double> also;  // what else goes by that name
};
// By a US name: "G", "G-6", "g/6", "10 1/2", "US 8". Of several sizes the roundest in mm is taken. Nothing for a word
// that names none.
[[nodiscard]] std::optional<NamedSize> size_named(Tool tool, std::string_view name);

}  // namespace ballchange
