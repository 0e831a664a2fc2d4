#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "creep/stretch.hpp"
#include "join/advice.hpp"
#include "ledger/state.hpp"
#include "offcut/bridge.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

// The advice at a ball change, as a screen for people and as JSON for tools.
namespace ballchange {

// What the project knows of this ball change.
struct BallCost {
  std::string ball;
  Length discard;
};
// A fresh ball that costs can't be told of.
struct BallNotRanked {
  enum class Why { unread, unsettled, no_fit, turned };
  std::string ball;
  BallEnd end = BallEnd::outside;  // that it would be worked from
  Why why = Why::unread;
};
// A fresh ball taken next, by the ends on record.
struct BallAhead {
  std::string ball;
  bool other_end = false;              // worked from the other end than was told
  BallEnd end = BallEnd::outside;      // that it is then worked from
  bool unread = false;                 // that end is not known, and `now` is what it costs on average
  Length now;                          // cut off at this join
  Length later;                        // what all joins after it lose at least, an end not read by its mean
  std::optional<std::string> follows;  // the ball after it, which then needs nothing cut off
  [[nodiscard]] Length in_all() const { return now + later; }
};
// By the record the ball in the work holds far more yarn than hangs loose.
struct TooMuchLeft {
  std::string ball;
  Length left;
  std::optional<Length> loose;  // from the hook to its end in hand, where that was read
  bool cut = false;             // the join is made already, and where it fell is asked for
  std::optional<WorkPlace> at;  // where the hook was told to be, or the join to have fallen; nothing: by the record
};
// An end that was read before the ball was begun, and is not where the strand in hand lies.
struct OtherEnd {
  std::string ball;
  BallEnd end = BallEnd::inside;
  std::string reading;
};
// The fresh ball is of another dye lot than the one in the work.
struct OtherLot {
  std::string ball, lot, work_ball, work_lot;
};
// How far the work is out of step by counted stitches: as they were counted, and by what is known of a stitch's yarn
// now.
struct ContestedShift {
  Length as_counted, now;
  Length stitch, stitch_now;
  bool by_scale = false;  // that is what the scale says; otherwise a gauge told since
};
// A join made that the work is yet to reach: the old strand hangs on it, and this join would cut it out.
struct CutsOut {
  std::string ball;  // behind it
  std::optional<WorkPlace> place;
};
// An offcut that fits between both ends and saves more than its second join takes.
struct BridgeShown {
  std::string path;             // of the project
  int entry = 0;                // it was cut off at
  std::optional<End> cut_from;  // where two pieces were cut off at that entry
  std::string ball;             // that it is already; empty: it is yet to be made one
  Length length;
  std::string before;  // the ball it leads to; empty: the one that is advised
  Length saves;        // against joining what is advised, with the best offcut for that
  offcuts::Bridge bridge;
};

// By the record a ball ends about in that row.
struct BallReach {
  std::string ball;
  int row = 0;
};

// A knot was told of before the place that the work has come to.
struct KnotBehind {
  WorkPlace told, stands;  // without a stitch: its row is done
};

struct CheckProject {
  std::string path;                          // as people name it
  std::string ball;                          // the fresh one; empty where it has no name yet
  bool chosen = false;                       // as the one that costs least, not by the crafter
  std::vector<BallCost> others;              // the other fresh balls that could be joined now, cheapest first
  std::vector<BallNotRanked> not_ranked;     // the other fresh balls of which that isn't known, as added
  std::optional<Length> unread_mean;         // what one of these that was never read costs on average
  std::vector<BallAhead> ahead;              // the fresh balls, least lost in all first, one that may be worked from
                                             // either end twice; empty: all leave the same
  Length worth_telling = 20_cm;              // so much less for another ball or end is told
  std::size_t ahead_left_out = 0;            // fresh balls that were not looked at there: they cost more now
  Totals totals;                             // before this join
  std::optional<TooMuchLeft> too_much_left;  // the record doesn't tell where the hook is then
  std::optional<TooMuchLeft> left_behind;    // where the hook was told to be
  std::optional<BallReach> reaches_before;   // where the hook was told to be past it
  std::optional<WorkPlace> hook_at_knot;     // as recorded last; nothing bears it out
  std::optional<KnotBehind> knot_behind;     // with the knot in hand
  std::optional<OtherEnd> other_end;
  std::optional<OtherEnd> read_otherwise;  // the fresh ball's own end, where it is on record as something else
  std::optional<CutsOut> cuts_out;
  std::optional<ContestedShift> contested;  // then it isn't known what is to be made good
  std::optional<bool> old_against_record;   // the work runs the other way than the old strand; nothing: no telling
  std::vector<std::string> came_apart;      // balls with no end on record since their join came apart
  std::optional<OtherLot> other_lot;
  std::optional<creeping::Longer> longer;  // the fresh ball's repeat, where its reading says so plainly
  std::optional<BridgeShown> bridge;
  bool kinked = false;  // the old end was ravelled back, and nobody said that it is damped and dried
};

// The advice and all it was given for.
struct CheckShown {
  const Yarn* yarn;  // null where only whole lengths are known; then nothing is placed
  const std::vector<Colour>& colours;
  const Strand& old_strand;
  const Strand& new_strand;
  const Fabric& fabric;
  const JoinWish& wish;
  const Advice& advice;
  const CheckProject* project = nullptr;
};

[[nodiscard]] std::string check_screen(const CheckShown& shown, const Screen& screen, Told told, bool verbose);
[[nodiscard]] std::string check_json(const CheckShown& shown);
[[nodiscard]] std::string_view verdict_name(JoinVerdict verdict);  // as JSON has it

// One remark in words, e.g. "The two ends follow each other."
[[nodiscard]] std::string remark_text(Remark remark, const CheckShown& shown, Told told);

}  // namespace ballchange
