#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "fabric/sizes.hpp"

namespace ballchange {

// A hook or needle as somebody wrote it.
struct ToolTold {
  Tool tool = Tool::hook;
  double mm = 0;
  std::string note;  // "G taken as 4 mm; some makers' G is 4.25 mm"; empty where mm were told
};

// "4 mm", "4", "hook G", "needle US 6", "US 10 1/2"; `usual` where it doesn't say which. Nothing for what is no size.
[[nodiscard]] std::optional<ToolTold> tool_size(std::string_view text, Tool usual);

// Whether two texts name one size: equally thick, or written alike where either is no size that is known.
[[nodiscard]] bool same_size(std::string_view a, std::string_view b);

}  // namespace ballchange
