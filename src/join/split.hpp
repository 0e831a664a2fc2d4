#pragma once
#include <vector>

#include "join/target.hpp"
#include "join/walk.hpp"

// The same trims can come off the old end, off the new, or partly off each: at most one split a section, five in all.
namespace ballchange::joining {

struct Bench {
  const Repeat& repeat;  // in the shared working order
  const Fabric& fabric;
  std::optional<RowStitch> hook;
  std::optional<Length> loose;  // from the hook to the old loose end
  Habits habits;
  Tape tape;
  Edge edge = Edge::any;        // never as_method
  bool whole_stitches = false;  // the yarn is counted in them, and so are the marks
  Length least_old = {};        // what must come off the old end: the new one can't give it
};

struct Split {
  Length trim_old, trim_new;  // on the repeat
  Walk::Cut old_cut, new_cut;
  Length middle;  // place of the join's middle, in working order
  bool inside = false;
  std::optional<RowStitch> lands;
  std::optional<Length> to_join;
  bool at_edge = false;
};

// Best first: both cuts markable; the whole overlap inside one section, away from its changes; the edge wish; the old
// end left uncut; least variance of the two marks; the smaller trim of the old end. `most_old`: what may come off it.
[[nodiscard]] std::vector<Split> rank_splits(const Bench& bench, const Walk& old_walk, const Walk& new_walk,
                                             Length old_place, Length trims, Length allowance, Length most_old);

// Stitches the landing is uncertain by.
[[nodiscard]] int give_or_take(const Fabric& fabric, const Tape& tape, Length to_join);
// Stitches that a section makes which begins so far past the hook (less than nothing: before it); the turns within it
// make none, where its place is known. Nothing without the yarn per stitch.
[[nodiscard]] std::optional<int> section_stitches(const Fabric& fabric, std::optional<RowStitch> hook,
                                                  std::optional<Length> begins, Length length);

}  // namespace ballchange::joining
