#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "fabric/work.hpp"
#include "join/method.hpp"
#include "join/opposite.hpp"
#include "match/place.hpp"

// Whether, where and how to cut both ends so that the colours run on. Model: DEVELOPERS.md, "The join".
namespace ballchange {

enum class Edge { as_method, avoid, seek, any };

struct JoinWish {
  std::optional<Method> method;     // threaded unless told
  std::optional<Length> allowance;  // the method's usual one unless told; outside its range: remarked on
  std::optional<Length> tolerance;  // t; two stitches unless told
  bool sparing = false;
  bool from_the_start = false;  // the running shift counts too: d = out_of_step; otherwise each join by itself, d = 0
  Length out_of_step;           // shift already in the work
  std::optional<Length> room;   // between hook and join
  Edge edge = Edge::as_method;
  bool knot = false;        // both ends are at a knot inside one ball
  Tape tape;                // how well a mark can be measured
  bool either_way = false;  // whole lengths: the colours read the same from both ends of a ball
};

// One end: what was read and where that lies.
struct Strand {
  Reading reading;
  Placing placing;
  bool cut_short = false;  // an offcut: its yarn ends where the reading does
};

// Where to cut: start at the loose end, pass `changes` colour changes as the reading shows them; in the section
// reached, the cut is `distance` from its start or end, in working order.
enum class MarkFrom { start, end, loose_end };
struct Mark {
  std::optional<std::size_t> changes;  // unknown: further than any reading shows (only with whole lengths)
  std::string colour;                  // may be empty (not known): the section before `next_colour`
  MarkFrom from = MarkFrom::start;     // of the old end, and end of the new; the other in an offcut's last section
  Length distance;
  std::string next_colour;  // the colour that shows at that change: before the start, or after the end; may be empty
                            // (not known)
  bool seen = true;         // false: the change lies beyond the reading, pull out until it shows
};

// What must lie between the last change on the old strand and the next on the new, ends laid together.
struct DryFit {
  std::string from_before, from_after;  // old: the change from_before -> from_after; before may be empty (not known)
  std::string to_before, to_after;      // new; after may be empty
  Length length;                        // >= 0
};
// Two changes nearer to each other than this lie on each other, as far as a tape shows.
inline constexpr Length kOnEachOther = 0.25_cm;

struct Join {
  std::optional<Length> trim_old, trim_new, discard;  // on the strand in hand; unknown only with whole lengths
  Length allowance;
  Length shift;          // + skipped, - repeated
  Length running_shift;  // out_of_step + shift
  std::string colour;    // of the join's middle
  std::size_t section = 0;
  Length into;  // the join's middle, from that section's start
  Mark old_mark, new_mark;
  std::optional<DryFit> dry_fit;
  std::optional<int> afterwards;     // stitches the joined section makes
  std::optional<RowStitch> lands;    // the join's middle
  int give_or_take = 0;              // stitches, with `lands`
  std::optional<Length> to_join;     // loose yarn from the hook to the join's middle
  bool leave_knot = false;           // the colours run on: leave the knot, secure it
  bool whole_overlap_inside = true;  // one section, away from its changes
  bool at_edge = false;
};

// Another length or method that leaves at least 20 cm less behind.
struct Alternative {
  Method method = Method::threaded;
  Length allowance, discard, shift;
};

// A stretch that can't well be one section of the whole length that was told.
struct TooLong {
  End end = End::old_end;
  std::string colour;
  Length read, whole;
};

enum class JoinVerdict { cut, measure_more, turn_ball, no_fit };

enum class Remark {
  allowance_outside_range,
  ends_follow,       // the two ends follow each other
  cut_for_edge,      // the old end is cut too for the wish about the row's edge alone
  not_enough_room,   // less loose yarn than room + allowance: ravel back first
  loose_unknown,     // where the hook is was not told: row and stitch not known
  cut_not_markable,  // no seen change helps
  next_section,      // whole lengths: too little left, the next such section of the new ball is used
  not_seen_yet,      // the same, but the new end shows none of that colour yet
  both_backward      // both run backward, as expected: joined on the mirrored repeat
};

struct Advice {
  JoinVerdict verdict = JoinVerdict::cut;
  Method method = Method::threaded;
  Length allowance, tolerance, out_of_step;
  std::vector<Join> joins;  // best first, at most five
  std::vector<Alternative> alternatives;
  std::vector<Remark> remarks;
  std::optional<Alternative> join_as_they_are;  // nothing cut, where that skips little beside what the rule cuts off
  std::optional<Alternative> cut_knot_out;      // with leave_knot: what cutting it out costs
  std::optional<Length> knot_shift;     // at a knot: how far out of step the colours run on through it, if known
  double sureness = 1;                  // both ends right
  std::optional<End> ask_next_colour;   // with whole lengths: the colour that ends this end's first stretch is needed
  std::optional<End> ask_first_length;  // with whole lengths: this end's first length is needed
  std::optional<TooLong> too_long;      // with whole lengths: no cut is advised before that is looked at again
  std::optional<joining::Opposite> opposite;  // with whole lengths: the new ball seems to run the other way
  Length ravel_back;                          // with not_enough_room: how much more loose yarn is needed
  std::optional<Length> too_short;  // no_fit: the new end is an offcut's, and so much more of it would be needed
};

// What was not told and can't be done without: a Problem(content) that says it in words, and as data for whoever knows
// how it is told.
class Lacking : public Problem {
 public:
  enum class Fact { yarn_that_felts, yarn_per_stitch, whole_length };
  Lacking(Fact fact, const std::string& message, std::string colour = {})
      : Problem(Fault::content, message), fact_(fact), colour_(std::move(colour)) {}
  [[nodiscard]] Fact fact() const { return fact_; }
  [[nodiscard]] const std::string& colour() const { return colour_; }  // whose whole_length

 private:
  Fact fact_;
  std::string colour_;
};

// With a known repeat. Felted on a yarn that does not felt, or doubled with no yarn per stitch and no allowance told:
// Lacking.
[[nodiscard]] Advice advise(const Yarn& yarn, const Strand& old_strand, const Strand& new_strand, const Fabric& fabric,
                            std::optional<RowStitch> hook, const JoinWish& wish);

// A join that is made: what came off each end in hand, and what the join took.
struct Cut {
  Length trim_old, trim_new, allowance;
};
// The shift it left, by both ends as they were before; not known where they aren't settled or run different ways.
[[nodiscard]] std::optional<Length> shift_left(const Yarn& yarn, const Strand& old_strand, const Strand& new_strand,
                                               const Cut& cut);

// With nothing but whole section lengths: used + kept - allowance = whole. Without that of the colour the old strand
// ends in: Lacking.
struct WholeSection {
  ColourId colour = 0;
  Length length;
};
[[nodiscard]] Advice advise_whole(const Palette& palette, const std::vector<WholeSection>& wholes,
                                  const Reading& old_reading, const Reading& new_reading, Reckoning reckoning,
                                  const Fabric& fabric, std::optional<RowStitch> hook, const JoinWish& wish);

}  // namespace ballchange
