#include "join/opposite.hpp"

#include <algorithm>
#include <cstddef>

namespace ballchange::joining {
namespace {

// Both readings run inward from the loose end: the old one against the work, the new one with it.
std::optional<ColourId> colour_at(const Reading& reading, std::size_t index) {
  if (index >= reading.entries.size()) return std::nullopt;
  return reading.entries[index].colour;
}

}  // namespace

std::optional<Opposite> opposite_ways(const Reading& old_reading, const Reading& new_reading) {
  const ColourId colour = old_reading.entries.front().colour;
  const auto found = std::find_if(new_reading.entries.begin(), new_reading.entries.end(),
                                  [colour](const Entry& entry) { return entry.colour == colour; });
  if (found == new_reading.entries.end()) return std::nullopt;
  const auto at = static_cast<std::size_t>(found - new_reading.entries.begin());
  const std::optional<ColourId> neighbour = colour_at(old_reading, 1);
  if (!neighbour || colour_at(new_reading, at + 1) != neighbour) return std::nullopt;
  // The same on both sides: that colour lies between two of the neighbour.
  if (at > 0 && colour_at(new_reading, at - 1) == neighbour) return std::nullopt;
  const std::optional<ColourId> beyond_old = colour_at(old_reading, 2);
  const std::optional<ColourId> beyond_new = colour_at(new_reading, at + 2);
  if (!beyond_old || !beyond_new) return Opposite{colour, *neighbour, false};
  if (beyond_old != beyond_new) return std::nullopt;
  return Opposite{colour, *neighbour, true};
}

}  // namespace ballchange::joining
