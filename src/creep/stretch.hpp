#pragma once
#include <optional>

#include "creep/filter.hpp"
#include "match/place.hpp"
#include "yarn/yarn.hpp"

namespace ballchange::creeping {

// How much longer the repeat of a ball is than the yarn's, by the whole sections of one of its readings.
struct Longer {
  Share likely;          // the share b that makes N(0, ball_plus_minus) and each length written, N((1 + b) L, s^2 +
                         // tape^2), likeliest together
  double as_read = 0;    // by the lengths written alone
  bool unusual = false;  // by more than one reading in fifty shows, if balls differ by no more than ball_plus_minus
  [[nodiscard]] bool tells() const;                                               // so much that it is worth a word
  [[nodiscard]] double share() const { return unusual ? as_read : likely.mean; }  // what is told
};
// `tape` is what the reading was placed with. Nothing where no whole section with a length stands in it, or where it
// isn't settled.
[[nodiscard]] std::optional<Longer> longer_by(const Yarn& yarn, const Reading& reading, const Placing& placing,
                                              const Tape& tape);

}  // namespace ballchange::creeping
