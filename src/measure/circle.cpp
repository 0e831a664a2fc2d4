#include "measure/circle.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "match/model.hpp"

namespace ballchange::measuring {
namespace {

// Sections of one yarn are rarely more than so many times as long as others, as a natural logarithm.
constexpr double range_of_lengths = 5;
constexpr double usually_least = 3;  // cm; shorter ones are no likelier for being short

}  // namespace

Lore::Lore(const std::vector<Colour>& palette, Reckoning reckoned)
    : colours(palette),
      reckoning(reckoned),
      short_section(habits(reckoned).short_section),
      names(matching::naming_chances(palette)) {}

double Lore::joins(const Patch& patch, ColourId written) const {
  const double q = matching::overlook_chance(Length::cm(patch.length), short_section);
  return q + (1 - q) * name(patch.colour, written);
}

double Lore::seen(const Patch& patch, ColourId written) const {
  return (1 - matching::overlook_chance(Length::cm(patch.length), short_section)) * name(patch.colour, written);
}

double Lore::any_length(double length) const { return -std::log(range_of_lengths * std::max(length, usually_least)); }

double Lore::any_colour() const { return -std::log(std::max(1.0, static_cast<double>(colours.size()) - 1)); }

Line line_of(const matching::Observed& observed) {
  Line line;
  line.entries = observed.entries;
  const bool new_end = observed.end == End::new_end;
  if (!new_end) std::reverse(line.entries.begin(), line.entries.end());
  const bool whole_first = new_end ? observed.bar_at_loose_end : observed.bar_at_open_end;
  const bool whole_last = new_end ? observed.bar_at_open_end : observed.bar_at_loose_end;
  line.from = whole_first ? 0 : 1;
  line.to = std::max(line.from, line.entries.size() - (whole_last ? 0 : 1));
  return line;
}

double read_of(const Line& line, std::size_t to) {
  double sum = 0;
  for (std::size_t i = 0; i < to; ++i) sum += line.entries[i].known ? line.entries[i].length : 0;
  return sum;
}

double read_of(const Line& line) { return read_of(line, line.entries.size()); }

bool closes(const Circle& circle) {
  if (circle.size() < 2) return false;
  for (std::size_t k = 0; k < circle.size(); ++k) {
    if (circle[k].colour == circle[(k + 1) % circle.size()].colour) return false;
  }
  return true;
}

bool same_sections(const Circle& a, const Circle& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t turn = 0; turn < a.size(); ++turn) {
    bool same = true;
    for (std::size_t k = 0; k < a.size() && same; ++k) {
      const Patch& other = b[(k + turn) % b.size()];
      same = a[k].colour == other.colour && std::abs(a[k].length - other.length) <= 2 * (a[k].sd + other.sd);
    }
    if (same) return true;
  }
  return false;
}

Yarn yarn_of(const Circle& circle, const Lore& lore, double ball_plus_minus) {
  std::vector<Section> sections;
  for (const Patch& patch : circle) {
    sections.push_back({patch.colour, Length::cm(patch.length), Length::cm(patch.sd)});
  }
  return Yarn{.name = {},
              .fibre = {},
              .ball_mass = {},
              .ball_length = {},
              .ball_plus_minus = ball_plus_minus,
              .reckoning = lore.reckoning,
              .repeat = Repeat(lore.colours, std::move(sections))};
}

}  // namespace ballchange::measuring
