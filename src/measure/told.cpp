#include "measure/told.hpp"

#include <algorithm>
#include <utility>

namespace ballchange::measuring {
namespace {

constexpr double near_enough = 0.1;    // of the total
constexpr double least_missing = 0.5;  // cm
// Of two sections that were both cut short only the sum follows from the total: how much of it may be left open.
constexpr double open_share = 0.01, least_open = 2;  // of the total, cm

double length_between(const Line& line, std::size_t from, std::size_t to) {
  double sum = 0;
  for (std::size_t i = from; i < to; ++i) sum += line.entries[i].length;
  return sum;
}

bool all_known(const Line& line, std::size_t from, std::size_t to) {
  return std::all_of(line.entries.begin() + static_cast<std::ptrdiff_t>(from),
                     line.entries.begin() + static_cast<std::ptrdiff_t>(to),
                     [](const matching::Measured& entry) { return entry.known; });
}

Circle patches(const Line& line, std::size_t from, std::size_t to) {
  Circle circle;
  for (std::size_t i = from; i < to; ++i) circle.push_back(patch_of(line.entries[i]));
  return circle;
}

Patch filled(const matching::Measured& entry, double length) {
  matching::Measured whole = entry;
  whole.known = true;
  whole.length = std::max(length, least_missing);
  return patch_of(whole);
}

}  // namespace

bool leaves_open(double missing, double total) { return missing > std::max(least_open, open_share * total); }

std::vector<Circle> of_total(const Line& line, double total) {
  if (line.to <= line.from || !all_known(line, line.from, line.to)) return {};
  const double rest = total - length_between(line, line.from, line.to);
  if (rest < -near_enough * total) return {};
  Circle circle = patches(line, line.from, line.to);
  const bool cut_first = line.from > 0, cut_last = line.to < line.entries.size();
  const matching::Measured& first = line.entries.front();
  const matching::Measured& last = line.entries.back();
  const double read_first = cut_first && first.known ? first.length : 0;
  const double read_last = cut_last && last.known ? last.length : 0;
  if (cut_first && cut_last && first.colour != last.colour) {
    if (leaves_open(rest - read_first - read_last, total)) return {};
    const double missing = std::max(0.0, rest - read_first - read_last) / 2;
    circle.push_back(filled(last, read_last + missing));
    circle.push_back(filled(first, read_first + missing));
  } else if (cut_first || cut_last) {
    circle.push_back(filled(cut_first ? first : last, rest));
  } else if (rest > near_enough * total) {
    return {};  // from change to change, and there must be more
  }
  if (rest + near_enough * total < std::max(read_first, read_last) || !closes(circle)) return {};
  return {circle};
}

std::vector<Circle> there_and_back(const Line& line, double total) {
  std::vector<Circle> found;
  const std::size_t size = line.entries.size();
  for (std::size_t i = 0; i + 1 < size; ++i) {
    for (std::size_t j = i + 1; j < size && 2 * (j - i) <= most_sections; ++j) {
      const bool cut_i = i < line.from, cut_j = j >= line.to;
      if (!all_known(line, i + 1, j)) break;
      const double rest = total - 2 * length_between(line, i + 1, j);
      if (rest < -near_enough * total) break;
      const matching::Measured& a = line.entries[i];
      const matching::Measured& b = line.entries[j];
      const double read_a = a.known ? a.length : 0, read_b = b.known ? b.length : 0;
      const double missing = rest - read_a - read_b;
      const bool plain = std::abs(missing) <= near_enough * total;
      if (!plain && !(missing > 0 && (cut_i || cut_j))) continue;
      if (cut_i && cut_j && leaves_open(missing, total)) continue;
      const double share = std::max(0.0, missing) / (cut_i && cut_j ? 2 : 1);
      Circle circle{filled(a, read_a + (cut_i ? share : 0))};
      const Circle middle = patches(line, i + 1, j);
      circle.insert(circle.end(), middle.begin(), middle.end());
      circle.push_back(filled(b, read_b + (cut_j ? share : 0)));
      circle.insert(circle.end(), middle.rbegin(), middle.rend());
      if (closes(circle)) found.push_back(std::move(circle));
    }
  }
  return found;
}

std::vector<std::size_t> mirrored_pairs(std::size_t size) {
  std::vector<std::size_t> pairs;
  for (std::size_t k = 0; k < size; ++k) pairs.push_back(std::min(k, size - k));
  return pairs;
}

bool same_colours(const Circle& circle, const std::vector<std::size_t>& same_as) {
  for (std::size_t k = 0; k < circle.size(); ++k) {
    if (circle[k].colour != circle[same_as[k]].colour) return false;
  }
  return true;
}

}  // namespace ballchange::measuring
