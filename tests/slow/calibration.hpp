#pragma once
#include <cstddef>
#include <cstdint>

#include "slow/strand.hpp"

// Strands drawn from the reference model over random yarns, read, and placed: do the promises hold?
namespace ballchange::slow {

struct Sample {
  Yarn yarn;
  MatchOptions options;
  Strand strand;
  Reading reading;
  Length measured;  // how far the reading goes
};
[[nodiscard]] Sample random_sample(Random& random);

[[nodiscard]] bool right(const Candidate& candidate, const Truth& truth);

struct Tally {
  std::size_t strands = 0;
  std::size_t settled = 0;
  std::size_t settled_right = 0;
  double settled_said = 0;  // sum of the chances told for these
  std::size_t placed = 0;   // the right change found, and the place not that change itself
  std::size_t held = 0;     // of these, those whose interval holds the true place
  std::size_t no_fit = 0;

  [[nodiscard]] double settled_share() const { return share(settled, strands); }
  [[nodiscard]] double right_share() const { return share(settled_right, settled); }
  [[nodiscard]] double said_share() const { return settled_said / static_cast<double>(settled); }
  [[nodiscard]] double held_share() const { return share(held, placed); }

 private:
  [[nodiscard]] static double share(std::size_t part, std::size_t all) {
    return static_cast<double>(part) / static_cast<double>(all);
  }
};
[[nodiscard]] Tally calibrate(std::uint64_t seed, std::size_t strands);

// Settled shares of both matchers on the same strands, only those of at most six entries: the slow one is slow.
struct Shares {
  double fast = 0, slow = 0;
};
[[nodiscard]] Shares settled_shares(std::uint64_t seed, std::size_t strands);

// After measuring as much further as was asked for.
struct MoreTally {
  std::size_t unsettled = 0;
  std::size_t asked = 0;    // told how much further to measure
  std::size_t settled = 0;  // of these, after it
};
[[nodiscard]] MoreTally measure_more(std::uint64_t seed, std::size_t unsettled);

}  // namespace ballchange::slow
