#include "measure/parts.hpp"

#include <cmath>
#include <optional>
#include <utility>

namespace ballchange::measuring {
namespace {

constexpr double plain = 6;         // logarithm of how much likelier than by chance
constexpr double plainer_than = 3;  // and than any other way
constexpr double impossible = -1e300;

struct Overlap {
  std::size_t a = 0, b = 0;  // lines: b goes on where a ends
  std::size_t at = 0;        // the entry of a that b begins in
  double score = impossible;
};

double length_score(const matching::Measured& x, const matching::Measured& y, const Lore& lore) {
  if (!x.known || !y.known) return 0;
  const double usual = usual_plus_minus(Length::cm((x.length + y.length) / 2)).cm();
  const double variance = 2 * usual * usual + x.variance + y.variance;
  const double off = x.length - y.length;
  return -off * off / (2 * variance) - std::log(matching::root_two_pi * std::sqrt(variance)) -
         lore.any_length(y.length);
}

// Entry by entry, all colours the same.
double score_of(const Line& a, std::size_t at, const Line& b, const Lore& lore) {
  double score = 0;
  for (std::size_t t = 0; at + t < a.entries.size(); ++t) {
    const matching::Measured& x = a.entries[at + t];
    const matching::Measured& y = b.entries[t];
    if (x.colour != y.colour) return impossible;
    score -= lore.any_colour();
    const bool x_whole = at + t >= a.from && at + t < a.to;
    const bool y_whole = t >= b.from && t < b.to;
    if (x_whole && y_whole) {
      score += length_score(x, y, lore);
    } else if (x_whole != y_whole && x.known && y.known) {
      const double over = x_whole ? y.length - x.length : x.length - y.length;
      const double usual = usual_plus_minus(Length::cm(x_whole ? x.length : y.length)).cm();
      if (over > 0) score -= over * over / (2 * (usual * usual + x.variance + y.variance));
    }
  }
  return score;
}

// The plainest overlap of all, when no other way to lay the same two together comes near.
std::optional<Overlap> plainest(const std::vector<Line>& lines, const Lore& lore) {
  Overlap best;
  double next = impossible;
  for (std::size_t a = 0; a < lines.size(); ++a) {
    for (std::size_t b = 0; b < lines.size(); ++b) {
      if (a == b) continue;
      const std::size_t size = lines[a].entries.size();
      // b must go on beyond the end of a.
      const std::size_t first = size >= lines[b].entries.size() ? size - lines[b].entries.size() + 1 : 1;
      for (std::size_t at = first; at + 1 < size; ++at) {
        const double score = score_of(lines[a], at, lines[b], lore);
        // The other way round it is no other way to lay them: round the circle each may go on where the other ends.
        const bool same_two = a == best.a && b == best.b;
        if (score > best.score) {
          next = same_two ? best.score : impossible;
          best = {a, b, at, score};
        } else if (same_two && score > next) {
          next = score;
        }
      }
    }
  }
  if (best.score < plain || best.score < next + plainer_than) return std::nullopt;
  return best;
}

Line joined(const Line& a, const Line& b, std::size_t at) {
  Line line = a;
  // What a stopped in, b has whole or further.
  const std::size_t shared = a.entries.size() - at;
  line.entries.resize(a.to > a.from ? a.to : a.from);
  const std::size_t on = line.entries.size() < a.entries.size() ? shared - 1 : shared;
  line.entries.insert(line.entries.end(), b.entries.begin() + static_cast<std::ptrdiff_t>(on), b.entries.end());
  line.to = line.entries.size() - (b.entries.size() - b.to);
  return line;
}

}  // namespace

std::vector<Line> laid_together(std::vector<Line> lines, const Lore& lore) {
  std::vector<char> longer(lines.size(), 0);
  while (const std::optional<Overlap> overlap = plainest(lines, lore)) {
    lines[overlap->a] = joined(lines[overlap->a], lines[overlap->b], overlap->at);
    longer[overlap->a] = 1;
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(overlap->b));
    longer.erase(longer.begin() + static_cast<std::ptrdiff_t>(overlap->b));
  }
  std::vector<Line> result;
  for (std::size_t n = 0; n < lines.size(); ++n) {
    if (longer[n] != 0) result.push_back(std::move(lines[n]));
  }
  return result;
}

}  // namespace ballchange::measuring
