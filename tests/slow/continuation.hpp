#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "base/random.hpp"
#include "match/place.hpp"
#include "reading/reading.hpp"
#include "slow/strand.hpp"
#include "yarn/yarn.hpp"

// How a reading could go on, drawn from the model given all that was read: by which path it came about, how long the
// open entry really is, and what lies beyond it.
namespace ballchange::slow {

class Continuation {
 public:
  // The reading when measured further by `more` from where it stopped (with an open entry whose length was left out:
  // from that entry's start).
  [[nodiscard]] Reading longer(const Reading& reading, Length more) const;

 private:
  friend std::vector<Continuation> continuations(const Yarn& yarn, const Reading& reading, const MatchOptions& options,
                                                 std::size_t count, Random& random);
  Length rest_;              // of the open entry
  std::vector<Run> beyond_;  // away from the loose end; lengths as the tape gives them
};

// None when no change was seen.
[[nodiscard]] std::vector<Continuation> continuations(const Yarn& yarn, const Reading& reading,
                                                      const MatchOptions& options, std::size_t count, Random& random);

// The least further length, in steps of `step` up to `most`, after which at least four in five of them settle.
[[nodiscard]] std::optional<Length> least_that_settles(const Yarn& yarn, const Reading& reading,
                                                       const MatchOptions& options,
                                                       const std::vector<Continuation>& continuations, Length step,
                                                       Length most);
// The share of them that settle after `more`.
[[nodiscard]] double settled_after(const Yarn& yarn, const Reading& reading, const MatchOptions& options,
                                   const std::vector<Continuation>& continuations, Length more);

// For unsettled readings of random strands: how much further was asked for, and the least that would do.
struct MoreAsked {
  Length asked;
  std::optional<Length> least;  // to a hundredth of the repeat; none within three repeats
  double settled_after = 0;     // share of the ways to go on that settle after what was asked for
};
[[nodiscard]] std::vector<MoreAsked> least_and_asked(std::uint64_t seed, std::size_t readings);

}  // namespace ballchange::slow
