#include "measure/near.hpp"

#include <algorithm>
#include <utility>

namespace ballchange::measuring {

std::vector<Circle> one_fewer(const Circle& circle) {
  std::vector<Circle> found;
  const std::size_t size = circle.size();
  for (std::size_t k = 0; k < size; ++k) {
    const std::size_t before = (k + size - 1) % size, after = (k + 1) % size;
    const bool one_colour = before != after && circle[before].colour == circle[after].colour;
    Circle fewer;
    for (std::size_t i = 0; i < size; ++i) {
      if (i == k || (one_colour && i == after)) continue;
      fewer.push_back(circle[i]);
      if (one_colour && i == before) fewer.back().length += circle[k].length + circle[after].length;
    }
    if (closes(fewer)) found.push_back(std::move(fewer));
  }
  return found;
}

std::vector<Circle> renamed(const Weighed& weighed) {
  std::vector<Circle> found;
  for (const Slip& slip : weighed.slips) {
    const auto so_named = std::count_if(weighed.slips.begin(), weighed.slips.end(), [&](const Slip& other) {
      return other.section == slip.section && other.written == slip.written;
    });
    if (2 * static_cast<std::size_t>(so_named) < weighed.seen[slip.section].times) continue;
    Circle circle = weighed.circle;
    circle[slip.section].colour = slip.written;
    if (closes(circle)) found.push_back(std::move(circle));
  }
  return found;
}

Circle twice_round(const Circle& circle) {
  Circle twice = circle;
  twice.insert(twice.end(), circle.begin(), circle.end());
  return twice;
}

}  // namespace ballchange::measuring
