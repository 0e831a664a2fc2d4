#include "reading/fault.hpp"

#include <utility>

#include "base/problem.hpp"

namespace ballchange {

std::optional<std::string> reading_fault(std::string_view text, End end, std::vector<Colour> colours, Ruler ruler,
                                         std::string_view what) {
  Palette palette{std::move(colours), false};
  if (!ruler.yarn_per_stitch) ruler.yarn_per_stitch = 1_cm;
  try {
    (void)parse_reading(text, end, palette, ruler, what);
  } catch (const Problem& problem) {
    return problem.what();
  }
  return std::nullopt;
}

}  // namespace ballchange
