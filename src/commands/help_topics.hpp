#pragma once
#include <span>
#include <string>
#include <string_view>

namespace ballchange {

// The side of the craft in half a screen, by a word after `help`; lines of at most 80 columns.
struct HelpTopic {
  std::string_view name, about;
  std::string text;
};
[[nodiscard]] std::span<const HelpTopic> help_topics();

}  // namespace ballchange
