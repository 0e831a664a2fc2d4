#include "measure/parts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace ballchange::measuring {
namespace {

constexpr double plain = 6;         // logarithm of how much likelier than by chance
constexpr double plainer_than = 3;  // and than any other way
constexpr double impossible = -1e300;
constexpr double turned_costs = 3.9;  // against one that is not: 2 of 100 run the other way

enum class Turn { none, second, first };  // which of two is taken the other way round

struct Overlap {
  std::size_t a = 0, b = 0;  // lines: b goes on where a ends
  Turn turn = Turn::none;
  std::size_t at = 0;  // the entry of a that b begins in
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

// How much likelier two names are than by chance: of one section, or one of them written wrong.
double name_score(const matching::Measured& x, const matching::Measured& y, const Lore& lore) {
  if (x.colour == y.colour) return -lore.any_colour();
  return std::log(lore.name(x.colour, y.colour) + lore.name(y.colour, x.colour)) - lore.any_colour();
}

// Entry by entry; one name at most may differ.
double score_of(const Line& a, std::size_t at, const Line& b, const Lore& lore) {
  double score = 0;
  bool misnamed = false;
  for (std::size_t t = 0; at + t < a.entries.size(); ++t) {
    const matching::Measured& x = a.entries[at + t];
    const matching::Measured& y = b.entries[t];
    if (x.colour != y.colour && std::exchange(misnamed, true)) return impossible;
    score += name_score(x, y, lore);
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

Line turned(Line line) {
  std::reverse(line.entries.begin(), line.entries.end());
  const std::size_t from = line.from;
  line.from = line.entries.size() - line.to;
  line.to = line.entries.size() - from;
  return line;
}

Line as_taken(const Line& line, bool other_way) { return other_way ? turned(line) : line; }

class Plainest {
 public:
  explicit Plainest(const Lore& lore) : lore_(lore) {}

  void consider(const std::vector<Line>& lines, std::size_t a, std::size_t b, Turn turn) {
    const Line first = as_taken(lines[a], turn == Turn::first), second = as_taken(lines[b], turn == Turn::second);
    const std::size_t size = first.entries.size();
    // b must go on beyond the end of a.
    const std::size_t from = size >= second.entries.size() ? size - second.entries.size() + 1 : 1;
    for (std::size_t at = from; at + 1 < size; ++at) {
      const double score = score_of(first, at, second, lore_) - (turn == Turn::none ? 0 : turned_costs);
      // The other way round it is no other way to lay them: round the circle each may go on where the other ends.
      const bool same_two = a == best_.a && b == best_.b && turn == best_.turn;
      if (score > best_.score) {
        next_ = same_two ? best_.score : impossible;
        best_ = {a, b, turn, at, score};
      } else if (same_two && score > next_) {
        next_ = score;
      }
    }
  }

  // When no other way to lay the same two together comes near.
  [[nodiscard]] std::optional<Overlap> found() const {
    const double overlapping = best_.score + (best_.turn == Turn::none ? 0 : turned_costs);
    if (overlapping < plain || best_.score < next_ + plainer_than) return std::nullopt;
    return best_;
  }

 private:
  const Lore& lore_;
  Overlap best_;
  double next_ = impossible;
};

std::optional<Overlap> plainest(const std::vector<Line>& lines, const Lore& lore, bool may_turn) {
  Plainest plainest(lore);
  for (std::size_t a = 0; a < lines.size(); ++a) {
    for (std::size_t b = 0; b < lines.size(); ++b) {
      if (a == b) continue;
      plainest.consider(lines, a, b, Turn::none);
      if (!may_turn || a > b) continue;  // b turned and a behind it is a turned and b behind it, all turned
      plainest.consider(lines, a, b, Turn::second);
      plainest.consider(lines, a, b, Turn::first);
    }
  }
  return plainest.found();
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

std::vector<Line> laid_together(std::vector<Line> lines, const Lore& lore, bool may_turn) {
  std::vector<char> longer(lines.size(), 0);
  while (const std::optional<Overlap> overlap = plainest(lines, lore, may_turn)) {
    lines[overlap->a] = joined(as_taken(lines[overlap->a], overlap->turn == Turn::first),
                               as_taken(lines[overlap->b], overlap->turn == Turn::second), overlap->at);
    longer[overlap->a] = 1;
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(overlap->b));
    longer.erase(longer.begin() + static_cast<std::ptrdiff_t>(overlap->b));
  }
  std::vector<Line> result;
  for (std::size_t n = 0; n < lines.size(); ++n) {
    if (longer[n] == 0) continue;
    if (may_turn) result.push_back(turned(lines[n]));
    result.push_back(std::move(lines[n]));
  }
  return result;
}

}  // namespace ballchange::measuring
