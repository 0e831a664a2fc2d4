#include "files/notes.hpp"

#include <fmt/core.h>

#include "base/text.hpp"

namespace ballchange {

void shorten_notes(std::vector<std::string>& notes, const std::string& file) {
  constexpr std::size_t most = 10;
  if (notes.size() <= most) return;
  const std::size_t more = notes.size() - most;
  notes.resize(most);
  notes.push_back(fmt::format("{}: and {} more {} not known here", printable(file), more,
                              more == 1 ? "key that is" : "keys that are"));
}

}  // namespace ballchange
