#pragma once
#include <cstddef>
#include <vector>

#include "base/random.hpp"
#include "match/place.hpp"
#include "reading/reading.hpp"
#include "yarn/yarn.hpp"

// Invented yarns, and strands of them read by somebody who errs as the reference model says: what was read, and what is
// true. The strand can be read on later; what was read before stays as it was.
namespace ballchange::slow {

struct YarnWish {
  std::size_t fewest_sections = 3, most_sections = 9;
  bool may_be_in_stitches = true;
};
// Long sections and splashes, colours that come back, look-alikes, no shades at all, now and then a mirror image.
[[nodiscard]] Yarn random_yarn(Random& random, const YarnWish& wish = {});

// How somebody writes lengths down: in whole multiples of `step` units, leaving some out.
struct Hand {
  Length unit = 1_cm;
  double step = 1;  // 1, 1/2, 1/4, 1/8 or 0.1
  double leaves_out = 0;
};
[[nodiscard]] Hand random_hand(Random& random, Reckoning reckoning);

// The truth behind a reading, as a Candidate tells it.
struct Truth {
  Direction direction = Direction::forward;
  std::size_t boundary = 0;
  Length place;
};

struct Run {
  ColourId name = 0;
  std::vector<std::size_t> sections;  // in working order
  Length length;                      // truly, on this strand; of the outermost the part that is there
};

class Strand {
 public:
  // The loose end lies anywhere, or with `bar` at a change.
  Strand(const Yarn& yarn, const MatchOptions& options, End end, bool bar, const Hand& hand, Random& random);

  [[nodiscard]] const Truth& truth() const { return truth_; }
  // What the entries of a reading are of, from the loose end inward, and how the ball stretches the repeat.
  [[nodiscard]] const std::vector<Run>& runs() const { return runs_; }
  [[nodiscard]] double factor() const { return factor_; }
  // From the loose end inward as far as `measured`.
  [[nodiscard]] Reading read(Length measured) const;
  // As far as `measured`, when `before` was read already: its lengths stay, those left out of whole entries stay left
  // out, and whatever is measured now is written down.
  [[nodiscard]] Reading read_on(const Reading& before, Length measured) const;
  // The first `entries` runs; the last one without its length, or with `bar` whole.
  [[nodiscard]] Reading read_entries(std::size_t entries, bool bar) const;
  // Where such a reading stops.
  [[nodiscard]] Length measured_in(std::size_t entries, bool bar) const;
  [[nodiscard]] Length length() const;

 private:
  void grow(Random& random, bool bar);
  void name_runs(Random& random);
  [[nodiscard]] Length stretched(std::size_t section, Random& random) const;
  [[nodiscard]] Length with_cut_in(std::size_t section, Random& random) const;
  [[nodiscard]] bool seen_apart(std::size_t section, ColourId name, Random& random) const;
  [[nodiscard]] ColourId named(std::size_t section, Random& random) const;
  [[nodiscard]] double written(std::size_t run, Length real) const;
  [[nodiscard]] Reading read(Length measured, const std::vector<char>& left_out) const;
  [[nodiscard]] Reading finish(Reading reading) const;

  Reckoning reckoning_;
  Repeat circle_;  // in the direction it runs
  std::vector<std::vector<double>> naming_;
  MatchOptions options_;
  End end_;
  bool bar_;
  Hand hand_;
  double factor_ = 1;
  std::vector<std::size_t> sections_;  // from the loose end inward
  std::vector<Length> lengths_;
  std::vector<Run> runs_;
  std::vector<double> errors_;  // of the tape, in standard deviations
  std::vector<char> left_out_;
  Truth truth_;
};

}  // namespace ballchange::slow
