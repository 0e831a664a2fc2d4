#pragma once
#include <optional>

#include "offcut/offcut.hpp"

// An offcut between the old end and the new: two joins for one.
//
// The rule cuts u = (p_e - p_s - m) mod R for one join. With an offcut from a to b it cuts u_1 = (p_e - a - m) mod R,
// off the old end and the offcut's start, and u_2 = (b - p_s - m) mod R, off its end and the new one: that saves u + m
// - (u_1 + u_2 + 2 m), which is R less the offcut's length or nothing (MATHS, "Offcuts"; tolerances aside). Both joins
// are advised as any other.
namespace ballchange::offcuts {

struct Bridge {
  Join to_offcut, to_ball;
  bool other_end = false;  // worked from its other end
  Length discard;          // off all four ends, lengths in hand
  Length allowance;        // in both joins
  Length saves;            // of what is cut off and what the joins take, against `direct`
};

// So much must be left of an offcut between two cuts: both overlaps and something to hold in the hand.
[[nodiscard]] constexpr Length least_between(Length allowance, Length room) { return 2 * allowance + room; }

// Nothing where the offcut can't be joined at either side, where too little of it would be left, and where that saves
// nothing that a tape could tell. `direct`: the best way to join both ends without it, its trims known (asserted).
// Terms as joining's advise(), and Lacking thrown as there.
[[nodiscard]] std::optional<Bridge> bridge(const Yarn& yarn, const Strand& old_strand, const Offcut& offcut,
                                           const Strand& new_strand, const Fabric& fabric,
                                           std::optional<RowStitch> hook, const JoinWish& wish, const Join& direct);

}  // namespace ballchange::offcuts
