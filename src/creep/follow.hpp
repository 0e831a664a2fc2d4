#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "creep/filter.hpp"
#include "ledger/state.hpp"
#include "yarn/repeat.hpp"

// The real yarn per stitch, and how far the colours creep, from where they were seen to fall. Model: creep/filter.hpp.
namespace ballchange::creeping {

// Where the work began.
struct Start {
  Length place;         // of its first stitch's yarn, along the repeat as it is worked
  double variance = 0;  // cm^2
};

// What was made of a change that was seen.
enum class Use {
  counted,
  first,      // nothing was known of where the colours lie, or not which repeat it is: what is seen next counts from it
  several,    // it might be several sections of that colour
  unfitting,  // no such change lies within reason of there
  again,      // the same change was told before
  no_place    // the yarn used up to there isn't known
};
struct Watched {
  std::size_t sighting = 0;  // index into the state's
  Use use = Use::counted;
};

// The repeat of one ball, by what was seen of it.
struct BallRepeat {
  std::string ball;
  Share longer;
};

struct Creep {
  std::vector<Watched> sightings;
  int counted = 0, unfitting = 0;    // of them
  bool anchored = false;             // one of them tells where the colours lie, on which the others are counted
  bool known = false;                // a change was counted on the beginning, or on one before it
  bool ball_seen = false;            // of the ball in work, so that its own repeat has a part in the creep
  Share looser;                      // a stitch, than the gauge in force says
  Share creep;                       // what it takes more of the repeat as it is in this ball
  Length per_stitch, per_stitch_sd;  // the real yarn per stitch
  double fewer_stitches = 0;         // of a repeat, than the gauge has them; + the colours come early
  Length per_repeat, per_repeat_sd;  // creep along one repeat; + the colours come early, after fewer stitches
  std::optional<Length> per_row;     // along one row
  std::vector<BallRepeat> balls;     // those of which two changes or more were counted, in the order of the work

  // More of what was seen speaks against it than for it: something that was told is wrong.
  [[nodiscard]] bool doubtful() const { return unfitting > counted; }
  // Larger than its own doubt: it lies outside nine in ten of what could be nothing. Never by one change alone,
  // nor where it is doubtful.
  [[nodiscard]] bool plain() const;
};
[[nodiscard]] bool plain(const Share& share);

// `repeat` runs as the work does: mirrored for a ball that runs backward. Without a start the first change of a colour
// that comes once a repeat tells where the colours lie. Where others that are seen later don't fit the first that was
// believed, one after it is believed instead, if then more of them fit: it may be a slip. Nothing where nothing was
// seen or a stitch's yarn isn't known.
[[nodiscard]] std::optional<Creep> follow(const State& state, const Repeat& repeat, const std::optional<Start>& start);

}  // namespace ballchange::creeping
