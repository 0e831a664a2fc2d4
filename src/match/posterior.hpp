#pragma once
#include <vector>

#include "match/runs.hpp"

// The sum over all ways the strand can have come to be read so: from the open end towards the loose end, entry by
// entry.
namespace ballchange::matching {

// A run at the open end: `count` sections from `from` on, in working order.
struct OpenBlock {
  std::size_t from = 0, count = 1;
};

// Chances by boundary, one value a stretch: what is read between the open end and the change that starts section
// `boundary`. `live` lists the boundaries that hold any; the others are not kept clean.
struct Field {
  std::vector<Stretched> at;
  std::vector<double> highest;  // of each
  std::vector<char> is_live;
  std::vector<std::size_t> live;
  void reset(std::size_t size);
  Stretched& touch(std::size_t boundary);  // zeroed when it was not live
};

// Unnormalised chances, times exp(log_scale), of each boundary being the change nearest to the loose end.
struct Totals {
  std::vector<Stretched> boundary;
  double sum = 0;      // of all of them
  double dropped = 0;  // what was left out for speed can at most have come to
  double log_scale = 0;
};

class Posterior {
 public:
  explicit Posterior(const Model& model);

  // One direction. A change must be seen: two entries or a bar. With `exact` nothing is left out for speed; with `only`
  // the block at the open end is that one.
  void run(const Observed& observed, Direction direction, bool exact, Totals& totals, const OpenBlock* only = nullptr);

 private:
  void start(const OpenBlock* only);
  void start_from(const Measured& entry, std::size_t from, const OpenBlock* only);
  void step(const Measured& entry, bool at_loose_end);
  void finish(Totals& totals);
  void finish_from(std::size_t boundary, Totals& totals);
  void add(std::size_t boundary, double weight, const Stretched& source);
  [[nodiscard]] bool too_small(double bound);
  [[nodiscard]] bool hopeless(const Measured& entry, const Block& block) const;
  void rescale();

  const Model& model_;
  const Observed* observed_ = nullptr;
  const Side* side_ = nullptr;
  Field now_, then_;
  Stretched density_{};
  double threshold_ = 0;  // share of the best so far below which a block is left out
  double too_far_ = 0;    // standard deviations of misfit beyond which a block is hopeless
  double best_ = 0;       // highest value in the field being filled
  double dropped_ = 0;
  double log_scale_ = 0;
};

}  // namespace ballchange::matching
