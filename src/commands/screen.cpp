#include "commands/screen.hpp"

#include <charconv>

#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kUsual = 80, kLeast = 20, kMost = 1000;

std::size_t columns_of(const Context& context) {
  const std::string told = context.environment("COLUMNS");
  std::size_t columns = 0;
  const auto result = std::from_chars(told.data(), told.data() + told.size(), columns);
  const bool holds = result.ec == std::errc() && result.ptr == told.data() + told.size();
  if (!holds || columns == 0) columns = context.terminal_columns;
  if (columns == 0) return kUsual;
  return columns < kLeast ? kLeast : columns > kMost ? kMost : columns;
}

Depth depth_of(const Context& context, ColourWish wish) {
  if (wish == ColourWish::never) return Depth::none;
  if (wish == ColourWish::when_it_can) {
    const std::string terminal = context.environment("TERM");
    const bool can = context.out_is_terminal && !terminal.empty() && terminal != "dumb";
    if (!can || !context.environment("NO_COLOR").empty()) return Depth::none;
  }
  const std::string depth = context.environment("COLORTERM");
  return depth == "truecolor" || depth == "24bit" ? Depth::truecolour : Depth::colours_256;
}

bool writes_utf8(const Context& context) {
  if (!context.out_is_terminal) return true;
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const std::string locale = fold_case(context.environment(name));
    if (locale.empty()) continue;
    return locale.find("utf-8") != std::string::npos || locale.find("utf8") != std::string::npos;
  }
  return false;
}

}  // namespace

Screen screen_of(const Context& context, ColourWish wish) {
  return {columns_of(context), depth_of(context, wish), writes_utf8(context)};
}

}  // namespace ballchange
