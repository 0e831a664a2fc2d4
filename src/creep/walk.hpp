#pragma once
#include <string>
#include <vector>

#include "ledger/state.hpp"
#include "yarn/repeat.hpp"

// The work as its ledger has it: along the yarn, what changes on the way.
namespace ballchange::creeping {

// Where the gauge changes, or a join lies.
struct Turn {
  Length used;                      // yarn used
  const JoinState* join = nullptr;  // nothing: another gauge is in force from here on
  Length place, after;              // along the yarn, before the join and behind it
  double variance = 0;              // cm^2, of the joined section
  double old_over_new = 0;          // another gauge: its yarn per stitch; 0: with another hook or needle
};

class Walk {
 public:
  // Both must outlive it.
  Walk(const State& state, const Repeat& repeat, Length start);

  [[nodiscard]] const std::vector<Turn>& turns() const { return turns_; }  // in the order of the work
  // Along the yarn, counted on through all repeats: start + used + the shifts of the joins before.
  [[nodiscard]] Length place(Length used) const;
  // Of the yarn used between two places, how much the stitches take by the gauge; the rest is in turns.
  [[nodiscard]] Length in_stitches(Length from, Length to) const;
  // cm^2, of the sections from the beginning of the repeat to there, through all repeats.
  [[nodiscard]] double variance_at(Length place) const;
  [[nodiscard]] double section_variance(Length place) const;  // cm^2, of the section there
  // cm^2: half a stitch, and the whole row where the stitch wasn't told.
  [[nodiscard]] double counting_variance(const Sighting& sighting) const;
  // The ball worked with so many turns passed; nothing where none was ever named.
  [[nodiscard]] const std::string* ball(std::size_t turns) const;

 private:
  // A stretch of the work in one gauge.
  struct Stretch {
    Length from;         // yarn used
    Length in_stitches;  // up to there
    double share = 1;    // of its yarn that goes into stitches
  };
  void lay_stretches();
  void lay_turns();
  [[nodiscard]] Length in_stitches(Length used) const;

  const State& state_;
  const Repeat& repeat_;
  Length start_;
  std::vector<Stretch> stretches_;
  std::vector<Turn> turns_;
  std::vector<double> variances_;  // of the sections before each, and of all
};

}  // namespace ballchange::creeping
