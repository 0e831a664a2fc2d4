#include "match/path.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/normal.hpp"

namespace ballchange::matching {
namespace {

constexpr double far_behind = 60;  // log chance: such a way can't win any more
constexpr double impossible = -std::numeric_limits<double>::infinity();

// What one entry of a path adds: the logarithm of its chance and how far its length is off.
struct Step {
  double log_chance = 0;
  double misfit = 0;
};

// The best way to reach one change from the open end.
struct Node {
  double log_chance = impossible;
  PathEntry entry;
  std::size_t came_from = 0;
};

double log_cdf(double z) {
  // Far out the normal tail is phi(z)/|z|; 37 is where the distribution function leaves double precision.
  if (z > -37) return std::log(normal_cdf(z));
  return -z * z / 2 - std::log(-z) - 0.9189385332046727;
}

class Search {
 public:
  Search(const Model& model, const Observed& observed, Direction direction, std::size_t stretch)
      : model_(model), observed_(observed), side_(model.side(direction)), factor_(model.factor[stretch]) {
    nodes_.assign(observed.entries.size() + 1, std::vector<Node>(side_.size()));
    start();
    for (std::size_t index = observed.entries.size() - (observed.one_entry() ? 0 : 1); index-- > 0;) step(index);
  }

  [[nodiscard]] std::optional<Path> to(std::size_t boundary) const {
    if (nodes_[0][boundary].log_chance == impossible) return std::nullopt;
    Path path;
    std::size_t at = boundary;
    for (std::size_t index = 0; index < observed_.entries.size(); ++index) {
      const Node& node = nodes_[index][at];
      path.entries.push_back(node.entry);
      path.chi_square += node.entry.misfit * node.entry.misfit;
      if (observed_.entries[index].known) ++path.lengths;
      at = node.came_from;
    }
    return path;
  }

  [[nodiscard]] std::size_t best_boundary() const {
    std::size_t best = 0;
    for (std::size_t k = 1; k < side_.size(); ++k) {
      if (nodes_[0][k].log_chance > nodes_[0][best].log_chance) best = k;
    }
    return best;
  }

 private:
  [[nodiscard]] Step whole(const Measured& y, const Block& block) const {
    if (!y.known) return {};
    const double variance = block.variance + y.variance;
    const double off = (y.length - factor_ * block.mean) / std::sqrt(variance);
    return {-off * off / 2 - std::log(variance) / 2, std::abs(off)};
  }

  [[nodiscard]] Step open(const Measured& y, const Block& block) const {
    if (!y.known) return {};
    const double over = (y.length - factor_ * block.mean) / std::sqrt(block.variance + y.variance);
    return {log_cdf(-over), std::max(0.0, over)};
  }

  [[nodiscard]] Step loose(const Measured& y, const Run& run) const {
    if (!y.known) return {std::log(run.cut.mean / model_.total), 0};
    const double scale = -std::log(factor_ * model_.total);
    const double over = (y.length - factor_ * run.whole.mean) / std::sqrt(run.whole.variance + y.variance);
    if (run.count == 1) return {log_cdf(-over) + scale, std::max(0.0, over)};
    const double under = (factor_ * run.others.mean - y.length) / std::sqrt(run.others.variance + y.variance);
    return {std::min(log_cdf(-over), log_cdf(-under)) + scale, std::max({0.0, over, under})};
  }

  // More sections can only make it worse: too long already by a good dozen standard deviations.
  [[nodiscard]] bool beyond(const Measured& y, const Block& block) const {
    return y.known && factor_ * block.mean - y.length > 12 * std::sqrt(block.variance + y.variance);
  }

  void offer(std::size_t index, const Run& run, std::size_t came_from, double so_far, std::size_t to,
             const Step& step) {
    const double chance = so_far + std::log(run.weight) + step.log_chance;
    Node& node = nodes_[index][to];
    if (run.weight > 0 && chance > node.log_chance) {
      node = {chance, {run.first, run.count, step.misfit}, came_from};
    }
  }

  void start() {
    const std::size_t last = observed_.entries.size() - 1;
    const Measured& entry = observed_.entries[last];
    const bool new_end = observed_.end == End::new_end;
    if (observed_.one_entry()) {
      for (std::size_t k = 0; k < side_.size(); ++k) {
        const double beyond = new_end ? otherwise(side_, k, entry.colour) : side_.before[side_.at(k, entry.colour)];
        nodes_[1][k].log_chance = std::log(beyond);
      }
      return;
    }
    for (std::size_t from = 0; from < side_.size(); ++from) {
      runs_at_open_end(side_, observed_.end, from, entry.colour, new_end && last == 0, [&](const Run& run) {
        if (run.count > 1 && observed_.bar_at_open_end && beyond(entry, run.whole)) return false;
        const Step step = observed_.bar_at_open_end ? whole(entry, run.whole) : open(entry, run.whole);
        offer(last, run, 0, 0, run.boundary, step);
        return true;
      });
    }
  }

  void step(std::size_t index) {
    const Measured& entry = observed_.entries[index];
    const bool cut = index == 0 && !observed_.bar_at_loose_end;
    const bool never_overlooked = index == 0 && observed_.end == End::new_end;
    double reached = impossible;
    for (const Node& node : nodes_[index + 1]) reached = std::max(reached, node.log_chance);
    for (std::size_t boundary = 0; boundary < side_.size(); ++boundary) {
      const double so_far = nodes_[index + 1][boundary].log_chance;
      if (so_far == impossible || so_far < reached - far_behind) continue;
      runs_from(side_, observed_.end, boundary, entry.colour, never_overlooked, [&](const Run& run) {
        if (run.count > 1 && beyond(entry, cut ? run.others : run.whole)) return false;
        offer(index, run, boundary, so_far, cut ? boundary : run.boundary,
              cut ? loose(entry, run) : whole(entry, run.whole));
        return true;
      });
    }
  }

  const Model& model_;
  const Observed& observed_;
  const Side& side_;
  double factor_;
  std::vector<std::vector<Node>> nodes_;  // [entry][boundary on its loose side]
};

constexpr std::size_t unstretched = 20;

}  // namespace

std::optional<Path> best_path(const Model& model, const Observed& observed, Direction direction, std::size_t boundary,
                              std::size_t stretch) {
  return Search(model, observed, direction, stretch).to(boundary);
}

std::optional<Path> closest_path(const Model& model, const Observed& observed, Direction direction) {
  const Search search(model, observed, direction, unstretched);
  return search.to(search.best_boundary());
}

}  // namespace ballchange::matching
