#pragma once
#include <cstdint>
#include <functional>
#include <vector>

#include "base/random.hpp"
#include "plan/estimate.hpp"
#include "plan/quantiles.hpp"

// Many pieces simulated in blocks, each with random numbers of its own: the answer is the same however many threads
// share them.
namespace ballchange::plan {

struct Block {
  std::vector<Length> waste;    // of each piece
  std::vector<double> chances;  // that `first` + k balls are enough, summed over the pieces; beyond them: sure
};

// Adds what `more` pieces sum up to onto the sums of `pieces` others; past the end of either all are sure.
void add_chances(std::vector<double>& sums, const std::vector<double>& others, double pieces, double more);

// `simulate(random, pieces, block)` fills a block; `first` is the same for all. `block_size` >= 1.
struct Simulated {
  Waste waste;
  std::vector<double> chances;  // means over all pieces
};
[[nodiscard]] Simulated simulate_blocks(const Simulation& simulation, std::int64_t pieces, std::int64_t block_size,
                                        const std::function<void(Random&, std::int64_t, Block&)>& simulate);

}  // namespace ballchange::plan
