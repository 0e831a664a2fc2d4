#include "measure/by_colours.hpp"

#include <algorithm>
#include <cmath>

namespace ballchange::measuring {
namespace {

constexpr std::size_t fewest_sections = 3;
constexpr std::size_t met_again = 3;
constexpr double alike = 3;  // plus-minus that a length may be off and still be of its section

bool comes_round(const Line& line, std::size_t size) {
  for (std::size_t i = size; i < line.entries.size(); ++i) {
    if (line.entries[i].colour != line.entries[i - size].colour) return false;
  }
  return true;
}

struct Readings {
  std::vector<double> all;
  [[nodiscard]] double middle() {
    std::sort(all.begin(), all.end());
    return all[(all.size() - 1) / 2];
  }
};

std::optional<Weighed> circle_of(const Line& line, std::size_t size) {
  Weighed found;
  std::size_t written = 0;
  std::size_t like_the_rest = 0;
  for (std::size_t k = 0; k < size; ++k) {
    Readings lengths;
    for (std::size_t i = k; i < line.entries.size(); i += size) {
      if (i >= line.from && i < line.to && line.entries[i].known) lengths.all.push_back(line.entries[i].length);
    }
    if (lengths.all.empty()) return std::nullopt;
    const double length = lengths.middle();
    const double sd = usual_plus_minus(Length::cm(length)).cm();
    const auto times = static_cast<std::size_t>(std::count_if(
        lengths.all.begin(), lengths.all.end(), [&](double one) { return std::abs(one - length) <= alike * sd; }));
    written += lengths.all.size();
    like_the_rest += times;
    found.circle.push_back({line.entries[k].colour, length, sd});
    found.seen.push_back({times});
  }
  if (!closes(found.circle) || 4 * (written - like_the_rest) > written) return std::nullopt;
  return found;
}

}  // namespace

bool may_be_rounds_of(const Weighed& shorter, const Weighed& whole) {
  const std::size_t size = whole.circle.size();
  if (size <= shorter.circle.size() || size % shorter.circle.size() != 0) return false;
  for (std::size_t n = 0; n < size; ++n) {
    // Both begin where the strand does.
    const std::size_t k = (whole.begin + n) % size;
    const Patch& once = shorter.circle[n % shorter.circle.size()];
    if (whole.circle[k].colour != once.colour) return false;
    const bool differs = std::abs(whole.circle[k].length - once.length) > alike * once.sd;
    if (differs && whole.seen[k].times > 1) return false;
  }
  return true;
}

std::optional<Weighed> by_colours(const Line& line) {
  for (std::size_t size = fewest_sections; size + met_again <= line.entries.size(); ++size) {
    if (comes_round(line, size)) return circle_of(line, size);
  }
  return std::nullopt;
}

}  // namespace ballchange::measuring
