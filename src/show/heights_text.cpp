#include <fmt/core.h>

#include <cstdlib>
#include <optional>
#include <vector>

#include "show/entry_text.hpp"
#include "show/stock.hpp"

namespace ballchange {

std::string figure_words(const stock::Diamonds& diamonds) {
  const std::string_view word = diamonds.look == Look::argyle  ? "diamond"
                                : diamonds.look == Look::swirl ? "turn of the swirl"
                                                               : "round of the stripes";
  if (diamonds.count == 1) return fmt::format("whole {}", word);
  return diamonds.look == Look::argyle  ? "whole diamonds"
         : diamonds.look == Look::swirl ? "whole turns of the swirl"
                                        : "whole rounds of the stripes";
}

std::string rings_text(const stock::Rings& rings, int planned, Working working) {
  std::vector<std::string> heights;
  const auto near = [&](const std::optional<Closing>& one) {
    return one && std::abs(one->rows - planned) * 4 <= planned;
  };
  if (near(rings.below)) heights.push_back(fmt::format("{}", rings.below->rows));
  if (near(rings.above)) heights.push_back(fmt::format("{}", rings.above->rows));
  std::string text = rows_words(planned, working) + (planned == 1 ? " does not close" : " do not close");
  // A flat piece need not become a ring.
  if (working == Working::rows) text = "sewn into one, " + text;
  if (heights.empty()) {
    return text + ", nor does any height near that at this width; see ballchange gauge --widths.";
  }
  return fmt::format("{}; {} would.", text,
                     heights.size() > 1 ? fmt::format("{} or {}", heights[0], heights[1]) : heights[0]);
}

}  // namespace ballchange
