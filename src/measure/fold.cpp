#include "measure/fold.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ballchange::measuring {
namespace {

constexpr double impossible = -std::numeric_limits<double>::infinity();
constexpr double behind = 25;     // such a way can't win any more
constexpr double hopeless = -25;  // so unlike, further on it won't come right
constexpr std::size_t longest_run = 6;
constexpr double given_up = -1e6;

struct Node {
  double score = impossible;
  std::size_t entries = 0, sections = 0;  // of the block that led here
};

class Folding {
 public:
  Folding(const Circle& circle, const Line& line, std::size_t from, const Lore& lore)
      : circle_(circle), line_(line), from_(from), lore_(lore), size_(circle.size()) {
    rows_.resize(line.entries.size() - from + 1);
    highest_.assign(line.entries.size() - from + 1, impossible);
  }

  [[nodiscard]] Folded run() {
    reach(from_, 0, {0, 0, 0});
    for (std::size_t entry = from_; entry < line_.entries.size(); ++entry) {
      const double highest = highest_[entry - from_];
      // Entries taken together leave gaps: nothing may end here.
      if (highest == impossible) continue;
      if (highest < hopeless) return {given_up, {}};
      for (std::size_t k = 0; k < size_; ++k) {
        const double score = node(entry, k).score;
        if (score >= highest - behind) go_on(entry, k, score);
      }
    }
    return traced();
  }

 private:
  // Rows are made as they are reached: most circles are given up after a few entries.
  [[nodiscard]] Node& node(std::size_t entry, std::size_t section) {
    std::vector<Node>& row = rows_[entry - from_];
    if (row.empty()) row.resize(size_);
    return row[section];
  }

  void reach(std::size_t entry, std::size_t section, const Node& by) {
    Node& at = node(entry, section);
    if (by.score > at.score) at = by;
    highest_[entry - from_] = std::max(highest_[entry - from_], by.score);
  }

  void go_on(std::size_t entry, std::size_t k, double score) {
    one_from_several(entry, k, score);
    if (entry >= line_.from && entry + 1 < line_.to) several_from_one(entry, k, score);
  }

  // How much likelier a length is from these sections than from just any.
  [[nodiscard]] double length_score(std::size_t entry, double length, double mean, double variance) const {
    const bool open = entry >= line_.to || entry < line_.from;
    const double off = length - mean;
    if (open) return off <= 0 ? 0 : -off * off / (2 * variance);
    return -off * off / (2 * variance) - std::log(matching::root_two_pi * std::sqrt(variance)) -
           lore_.any_length(length);
  }

  void one_from_several(std::size_t entry, std::size_t k, double score) {
    const matching::Measured& y = line_.entries[entry];
    double weight = score + std::log(lore_.seen(circle_[k], y.colour)) - lore_.any_colour();
    double mean = 0, variance = y.variance;
    bool known = y.known;
    for (std::size_t count = 1; count <= std::min(longest_run, size_); ++count) {
      const Patch& patch = circle_[(k + count - 1) % size_];
      if (count > 1) weight += std::log(lore_.joins(patch, y.colour));
      known = known && patch.known();
      mean += patch.length;
      variance += patch.sd * patch.sd;
      if (weight < score - behind) return;
      const double fits = known ? length_score(entry, y.length, mean, variance) : 0;
      reach(entry + 1, (k + count) % size_, {weight + fits, 1, count});
    }
  }

  void several_from_one(std::size_t entry, std::size_t k, double score) {
    const Patch& patch = circle_[k];
    const ColourId name = line_.entries[entry].colour;
    double weight = score + std::log(lore_.seen(patch, name)) - lore_.any_colour();
    double length = 0, variance = patch.sd * patch.sd;
    for (std::size_t count = 1; count <= longest_run && entry + count <= line_.to; ++count) {
      const matching::Measured& y = line_.entries[entry + count - 1];
      if (!y.known || !patch.known()) return;
      if (count > 1) weight += std::log(lore_.joins({y.colour, y.length, 0}, patch.colour));
      length += y.length;
      variance += y.variance;
      if (weight < score - behind) return;
      if (count > 1) {
        reach(entry + count, (k + 1) % size_, {weight + length_score(entry, length, patch.length, variance), count, 1});
      }
    }
  }

  [[nodiscard]] Folded traced() {
    std::size_t entry = line_.entries.size(), section = 0;
    for (std::size_t k = 1; k < size_; ++k) {
      if (node(entry, k).score > node(entry, section).score) section = k;
    }
    Folded folded{node(entry, section).score, {}};
    if (folded.score == impossible) return {given_up, {}};
    while (entry > from_) {
      const Node& at = node(entry, section);
      entry -= at.entries;
      section = (section + longest_run * size_ - at.sections) % size_;
      folded.blocks.push_back({entry, at.entries, section, at.sections});
    }
    std::reverse(folded.blocks.begin(), folded.blocks.end());
    return folded;
  }

  const Circle& circle_;
  const Line& line_;
  std::size_t from_;
  const Lore& lore_;
  std::size_t size_;
  std::vector<std::vector<Node>> rows_;  // [entry][section]: what lies before both
  std::vector<double> highest_;
};

}  // namespace

Folded fold_on(const Circle& circle, const Line& line, std::size_t from, const Lore& lore) {
  return Folding(circle, line, from, lore).run();
}

}  // namespace ballchange::measuring
