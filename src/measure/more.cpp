#include "measure/more.hpp"

#include <algorithm>
#include <utility>

namespace ballchange::measuring {
namespace {

bool whole(const Line& line, std::size_t entry) { return entry >= line.from && entry < line.to; }

// Of a section that was cut short wherever it shows each cut is half of it, on average.
double whole_length(const Line& line, std::size_t first, std::size_t size) {
  double sum = 0;
  int cuts = 0;
  for (std::size_t i = first; i < line.entries.size(); i += size) {
    if (whole(line, i)) return line.entries[i].length;
    sum += line.entries[i].length;
    if (line.entries[i].length > 0) ++cuts;
  }
  return cuts == 1 ? 2 * sum : sum;
}

// Where the last one was only seen, nothing of it was measured yet.
Line measured(Line line) {
  matching::Measured& last = line.entries.back();
  if (last.known || whole(line, line.entries.size() - 1)) return line;
  last.known = true;
  last.length = 0;
  last.variance = line.entries.front().variance;
  return line;
}

}  // namespace

std::optional<std::size_t> begun_again(const Line& line) {
  const std::vector<matching::Measured>& entries = line.entries;
  for (std::size_t size = 2; size < entries.size(); ++size) {
    const auto from = entries.begin() + static_cast<std::ptrdiff_t>(size);
    const bool again = std::equal(from, entries.end(), entries.begin(), [](const auto& later, const auto& earlier) {
      return later.colour == earlier.colour;
    });
    if (again) return size;
  }
  return std::nullopt;
}

std::vector<GoneOn> gone_on(const Line& read, std::size_t size, double little) {
  const Line line = measured(read);
  const auto known = [](const matching::Measured& entry) { return entry.known; };
  if (!std::all_of(line.entries.begin(), line.entries.end(), known)) return {};
  std::vector<GoneOn> steps;
  GoneOn step{line.entries, 0};
  // Not all alike: two that come to the same length say more than is usual.
  double off = 1;
  for (std::size_t n = 0; n < size; ++n) {
    const std::size_t at = step.entries.size() - 1;
    if (!(at < line.entries.size() && whole(line, at))) {
      matching::Measured& last = step.entries.back();
      const double mean = whole_length(line, at % size, size);
      const double length = std::max(last.length, mean + off * usual_plus_minus(Length::cm(mean)).cm());
      step.more += length - last.length;
      last.length = length;
      off = -off;
    }
    matching::Measured next = line.entries[(at + 1) % size];
    next.length = std::min(little, next.length);
    step.entries.push_back(next);
    step.more += next.length;
    steps.push_back(step);
  }
  return steps;
}

std::optional<ColourId> unmeasured_in(const Line& line) {
  const std::optional<std::size_t> size = begun_again(line);
  if (!size || line.entries.size() < *size + 2) return std::nullopt;
  for (std::size_t k = 0; k < *size; ++k) {
    bool measured = false;
    for (std::size_t i = k; i < line.entries.size(); i += *size) measured = measured || line.entries[i].known;
    if (!measured) return line.entries[k].colour;
  }
  return std::nullopt;
}

}  // namespace ballchange::measuring
