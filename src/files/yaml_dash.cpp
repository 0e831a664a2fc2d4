#include "files/yaml_dash.hpp"

namespace ballchange {

std::size_t empty_item(std::string_view text, std::size_t next) {
  std::string_view before = text.substr(0, next);
  while (!before.empty()) {
    const std::size_t begin = before.find_last_of('\n') + 1;  // 0 where there is none
    const std::string_view line = before.substr(begin);
    const std::size_t last = line.substr(0, line.find('#')).find_last_not_of(" \t\r");
    if (last != std::string_view::npos) {
      // What belongs to the item stands further in than its dash.
      const std::size_t column = next - (text.substr(0, next).find_last_of('\n') + 1);
      const bool written_out = next < text.size() && column > last;
      return line[last] == '-' && !written_out ? begin + last : next;
    }
    before = before.substr(0, begin == 0 ? 0 : begin - 1);
  }
  return next;
}

}  // namespace ballchange
