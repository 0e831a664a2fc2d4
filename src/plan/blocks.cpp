#include "plan/blocks.hpp"

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <utility>

namespace ballchange::plan {
namespace {

// Far apart in the sequence of seeds, so that no two runs of nearby seeds share a block.
constexpr std::uint64_t kApart = 0x9E37'79B9'7F4A'7C15;

}  // namespace

void add_chances(std::vector<double>& sums, const std::vector<double>& others, double pieces, double more) {
  if (sums.size() < others.size()) sums.resize(others.size(), pieces);
  for (std::size_t k = 0; k < sums.size(); ++k) sums[k] += k < others.size() ? others[k] : more;
}

namespace {

// In the order of the blocks, whichever thread did them.
Simulated gathered(std::vector<Block>& blocks, std::int64_t pieces) {
  std::vector<std::vector<Length>> waste;
  Simulated all;
  double summed = 0;
  for (Block& block : blocks) {
    const auto more = static_cast<double>(block.waste.size());
    waste.push_back(std::move(block.waste));
    add_chances(all.chances, block.chances, summed, more);
    summed += more;
  }
  for (double& chance : all.chances) chance /= static_cast<double>(pieces);
  all.waste = waste_of(waste);
  return all;
}

}  // namespace

Simulated simulate_blocks(const Simulation& simulation, std::int64_t pieces, std::int64_t block_size,
                          const std::function<void(Random&, std::int64_t, Block&)>& simulate) {
  const auto count = static_cast<std::size_t>((pieces + block_size - 1) / block_size);
  std::vector<Block> blocks(count);
  std::atomic<std::size_t> next{0};
  std::size_t done = 0;
  std::exception_ptr failed;
  std::mutex one_at_a_time;
  const auto work = [&] {
    for (std::size_t k = next++; k < count; k = next++) {
      try {
        Random random(simulation.seed + kApart * (k + 1));
        simulate(random, std::min(block_size, pieces - static_cast<std::int64_t>(k) * block_size), blocks[k]);
      } catch (...) {
        const std::lock_guard lock(one_at_a_time);
        failed = std::current_exception();
        next = count;
      }
      const std::lock_guard lock(one_at_a_time);
      ++done;
      if (simulation.progress) simulation.progress(static_cast<double>(done) / static_cast<double>(count));
    }
  };
  std::vector<std::thread> others;
  for (unsigned k = 1; k < simulation.threads && k < count; ++k) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
  if (failed) std::rethrow_exception(failed);
  return gathered(blocks, pieces);
}

}  // namespace ballchange::plan
