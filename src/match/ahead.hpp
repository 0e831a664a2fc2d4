#pragma once
#include <vector>

#include "base/random.hpp"
#include "match/posterior.hpp"

// What lies beyond the open end of a reading, as far as the reading tells: which sections it may have stopped in, and
// strands that go on from there.
namespace ballchange::matching {

// One explanation of the open end: the sections its last entry runs over, with the chances of every change nearest to
// the loose end and of every stretch.
struct OpenState {
  Direction direction = Direction::forward;
  OpenBlock block;
  double chance = 0;             // of this state; all states add up to 1
  std::vector<double> boundary;  // chance of this state with each boundary
  Stretched stretch{};           // chance of each stretch, adding up to `chance`
  Block others, cut;             // no change seen: the section of the loose end, and those up to the change
};

// Steps given to all that is worked out about what would settle a reading: some half a second, so that both ends of a
// join are answered within one.
inline constexpr std::uint64_t most_work = 3'000'000;

// All states above one in ten million; none where telling them apart takes half of those steps. Readings with no change
// seen: the section the strand lies in. `posterior` is of the same model.
[[nodiscard]] std::vector<OpenState> open_states(const Model& model, const Observed& observed,
                                                 const MatchOptions& options, Posterior& posterior);

// Chance of each colour being written next, by colour id.
[[nodiscard]] std::vector<double> next_colour(const Model& model, const Observed& observed, const OpenState& state);

// The strand further on, as somebody would write it: the last entry's whole length, then entry by entry.
struct Further {
  double last_whole = 0;  // cm
  std::vector<Measured> entries;
};

// One strand drawn from the states, long enough for `more` beyond the open end.
class Drawing {
 public:
  Drawing(const Model& model, const Observed& observed, const MatchOptions& options,
          const std::vector<OpenState>& states, std::uint64_t seed);
  [[nodiscard]] Further draw(double more);

 private:
  [[nodiscard]] std::size_t pick(const double* weights, std::size_t count, double sum);
  [[nodiscard]] ColourId pick_name(const Side& side, std::size_t section, std::optional<ColourId> not_this);
  [[nodiscard]] double whole_of_last(const Side& side, const OpenState& state, double factor);
  [[nodiscard]] double up_to_the_change(const OpenState& state, double factor);
  [[nodiscard]] double measured(double length);
  void walk_on(const Side& side, const OpenState& state, double factor, double most, Further& further);
  void walk_back(const Side& side, const OpenState& state, double factor, double most, Further& further);
  [[nodiscard]] double passed_over(const Side& side, std::size_t section, bool in_the_open) const;
  [[nodiscard]] double length_of(const Side& side, std::size_t section, double factor);

  const Model& model_;
  const Observed& observed_;
  const MatchOptions& options_;
  const std::vector<OpenState>& states_;
  std::vector<double> chances_;
  Random random_;
};

}  // namespace ballchange::matching
