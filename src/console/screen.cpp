#include "console/screen.hpp"

#include <algorithm>
#include <charconv>
#include <system_error>

#include "base/text.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kUsual = 80, kLeast = 20, kMost = 1000;
constexpr std::size_t kMostComplained = 4000;  // columns of one line

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

bool writes_utf8(const Context& context, bool to_terminal) {
  if (!to_terminal) return true;
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const std::string locale = fold_case(context.environment(name));
    if (locale.empty()) continue;
    return locale.find("utf-8") != std::string::npos || locale.find("utf8") != std::string::npos;
  }
  return false;
}

}  // namespace

void stands_now(const Context& context, std::string_view text) {
  if (context.stands) context.stands(text);
}

void complain(const Context& context, std::string_view text) {
  std::string safe;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t stop = std::min(text.find('\n', at), text.size());
    if (at > 0) safe += '\n';
    safe += printable(text.substr(at, stop - at), kMostComplained);
    at = stop + 1;
  }
  context.complain(writes_utf8(context, context.error_is_terminal) ? safe : plain_ascii(safe));
}

void remark(const Context& context, std::string_view text) {
  if (context.hold) return context.hold(text);
  complain(context, text);
}

Screen screen_of(const Context& context, ColourWish wish) {
  return {columns_of(context), depth_of(context, wish), writes_utf8(context, context.out_is_terminal)};
}

}  // namespace ballchange
