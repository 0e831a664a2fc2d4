#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "match/bounds.hpp"

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
  double sum = 0;  // of all of them
  double log_scale = 0;
};

class Posterior {
 public:
  explicit Posterior(const Model& model);

  // Takes a reading up, in which a change is seen: two entries or a bar. It must outlive the runs.
  void take(const Observed& observed, const MatchOptions& options);

  // One direction of the reading taken up, without the chance of the direction itself. Left out is only what comes to
  // less than 1e-13 of the whole. With `only`, the block at the open end is that one.
  void run(Direction direction, Totals& totals, const OpenBlock* only = nullptr);

  // Steps taken so far, of some 0.1 to 0.3 microseconds each: for whoever must stop in time without a clock.
  [[nodiscard]] std::uint64_t work() const { return work_; }

 private:
  void sweep(Direction direction, Totals& totals, const OpenBlock* only);
  void enter_level(std::size_t level);
  void start(const OpenBlock* only);
  void start_from(const Measured& entry, std::size_t from, const OpenBlock* only);
  void step(const Measured& entry, bool at_loose_end);
  void finish(Totals& totals);
  void finish_from(std::size_t boundary, Totals& totals);
  void add(std::size_t boundary, double weight, const Stretched& source);
  [[nodiscard]] bool too_small(double bound);
  [[nodiscard]] bool out_of_the_race(std::size_t d) const;
  void rescale();

  const Model& model_;
  const Observed* observed_ = nullptr;
  const Side* side_ = nullptr;
  std::array<Bounds, 2> bounds_;
  std::array<double, 2> log_chance_{};  // of each direction
  const Bounds* ahead_ = nullptr;       // of the side at work
  Totals floor_;
  Field now_, then_;
  Stretched density_{};
  double log_floor_ = 0;      // the whole comes to at least exp of this
  double highest_start_ = 1;  // what the open end alone can come to
  bool beam_ = false;         // following only the likeliest way, to find that floor
  std::size_t level_ = 0;     // entries left on the loose side of the field being filled
  double log_limit_ = 0;      // bounds below exp of this are left out
  double limit_ = 0;          // the same in the scale of the level at work
  double best_bound_ = 0;     // highest bound in the field being filled
  double best_ = 0;           // highest value in it
  double log_scale_ = 0;
  std::uint64_t work_ = 0;
};

}  // namespace ballchange::matching
