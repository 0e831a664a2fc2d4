#pragma once
#include <optional>
#include <vector>

#include "match/posterior.hpp"

// The single likeliest way a reading came to be, for one change nearest to the loose end.
namespace ballchange::matching {

struct PathEntry {
  std::size_t first = 0;  // first section in working order, side numbering
  std::size_t count = 1;
  double misfit = 0;  // standard deviations: how far the written length is off (0: within what an open end allows)
};

struct Path {
  std::vector<PathEntry> entries;  // as in the reading, from the loose end
  double chi_square = 0;
  std::size_t lengths = 0;  // entries with a length: degrees of freedom
};

// The best path at stretch number `stretch` to `boundary`; nothing where no path leads there.
[[nodiscard]] std::optional<Path> best_path(const Model& model, const Observed& observed, Direction direction,
                                            std::size_t boundary, std::size_t stretch);
// The best path to any boundary at no stretch; what comes closest when nothing fits.
[[nodiscard]] std::optional<Path> closest_path(const Model& model, const Observed& observed, Direction direction);

}  // namespace ballchange::matching
