#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fabric/work.hpp"
#include "ledger/gauge.hpp"
#include "ledger/offcut.hpp"
#include "ledger/project.hpp"
#include "ledger/seen.hpp"

// What a project's log adds up to. Lengths are yarn, in what the yarn is reckoned in.
namespace ballchange {

enum class BallUse {
  fresh,
  working,
  joined_ahead,  // hangs behind a join that the work is yet to reach
  used_up
};

// Of its length, a ball may well hold so much more or less than it should.
inline constexpr double kBallDoubt = 0.05;

struct BallState {
  std::string id;
  int entry = 0;  // that added it
  bool plain = false;
  std::optional<std::size_t> offcut;                   // index of the offcut it is; nothing: it was bought
  bool outside_as_cut = false, inside_as_cut = false;  // an offcut's first end, its last: where they lie is known
  std::optional<Mass> mass;
  std::optional<Mass> scale;  // the step it was weighed with, where that was told
  std::optional<std::string> dye_lot;
  std::optional<std::string> outside, inside;  // readings as written, of ends that are still as they were read
  BallEnd from = BallEnd::outside;
  std::optional<Winding> wound;
  BallUse use = BallUse::fresh;
  std::optional<Length> length;  // when it was added: told, by its mass, or by the yarn's ball band
  std::optional<Length> left;    // not yet worked, joined or cut off
  Length overdrawn;              // so much more was worked from it than it held

  [[nodiscard]] const std::optional<std::string>& first_reading() const {  // of the end it is worked from
    return from == BallEnd::outside ? outside : inside;
  }
  [[nodiscard]] const std::optional<std::string>& other_reading() const {
    return from == BallEnd::outside ? inside : outside;
  }
  [[nodiscard]] bool first_as_cut() const { return from == BallEnd::outside ? outside_as_cut : inside_as_cut; }
  [[nodiscard]] bool other_as_cut() const { return from == BallEnd::outside ? inside_as_cut : outside_as_cut; }
};

enum class JoinHeld {
  in_work,
  ahead,  // made, but ravelled back past, or not yet reached: lands when the work gets there
  apart,  // ravelled and come apart; its trims stay cut off
  cut_out
};

// How much yarn a joined section really holds: its stitches counted, or its beginning and its end seen in the work.
struct SectionSeen {
  int entry = 0;  // that told it
  ColourId colour = 0;
  double stitches = 0;
  Length yarn, least, most;  // in it, about; and what it may be, as near as stitches are counted
  Length stitch;  // yarn in each: by the gauge told last when counted, or that of its place where another size came in
};

// Where a colour fell.
struct Sighting {
  int entry = 0;
  Seen seen;
  WorkPlace change;            // so much was done before it; where no stitch is told, half its row
  std::optional<Length> used;  // yarn used there, by the gauge
};

// How the work began.
struct Begun {
  int entry = 0;  // that told it; 0: it follows from what was worked
  std::size_t ball = 0;
  std::optional<std::string> reading;  // of the end it began with, as written
  Length trim;
};

struct JoinState {
  int entry = 0;
  std::string old_ball, new_ball;  // old_ball may be empty: a ball that was never added
  bool knot = false;
  bool knot_left = false;  // as it was tied: no join was made
  Method method = Method::threaded;
  std::optional<Length> allowance;  // not known: in stitches, and no yarn per stitch told
  Length trim_old, trim_new;
  std::optional<Length> shift;           // as its section was really seen, otherwise as recorded
  std::optional<Length> recorded_shift;  // by the readings it was made by
  std::optional<SectionSeen> seen;       // what `shift` is by
  std::optional<WorkPlace> place;        // of its middle
  bool at_least = false;                 // or later
  std::optional<Length> old_left;        // on the old ball by the record, past the join; below nothing: overdrawn
  std::optional<Length> used;            // yarn used there
  JoinHeld held = JoinHeld::in_work;
  std::optional<Length> running_shift;  // after it, while in the work
  [[nodiscard]] bool lands() const { return held == JoinHeld::in_work || held == JoinHeld::ahead; }
};

struct Totals {
  // In the work or ahead; a knot that was left is no join.
  int joins = 0, knots_left = 0;
  Length discard, allowance, waste;
  std::optional<Length> running_shift;
  struct {
    Length begin;  // left off before the first stitch
    Length step, allowance, knots, swatches;
  } by_cause;                         // together `waste`
  Length offcuts_used;                // for sewing up, edging and the like: no waste
  std::optional<Length> bought;       // on all balls of the dyed yarn when they were added, offcuts not counted again
  std::optional<Mass> waste_mass;     // by the ball band
  std::optional<double> waste_share;  // of what was bought
};

struct Left {
  std::optional<Length> length;  // on all balls of the dyed yarn
  Length foundation;             // of that, what the foundation takes which is yet to be made
  std::optional<int> rows;       // whole rows that the rest makes
  // For the rows planned and the edging, joins not counted; not known where the log holds more rows than yarn.
  std::optional<bool> enough;
  std::optional<Length> missing;  // where it isn't enough
  std::optional<Length> needed;   // for the rows planned and the edging, joins not counted
};

// A ball on the scale, and what the rows had it hold then.
struct Weighing {
  int entry = 0;
  std::size_t ball = 0;  // index
  Mass mass;
  std::optional<Mass> scale;       // the step it shows, where that was told
  bool in_work = false;            // it was being worked from
  std::optional<WorkPlace> at;     // where the work stood
  std::optional<Length> used;      // yarn in it
  std::optional<Length> expected;  // left on it by the rows, just before
  std::optional<Length> left;      // by its mass
  int rips = 0, breaks = 0;        // told before it; breaks: swatches and knots of that ball, other hooks
  bool past_end = false;           // the work was past the join that ends the ball: another was on the scale
};

// From there on a row takes another length of yarn.
struct GaugeChange {
  int entry = 0;
  std::optional<Length> used;  // yarn in the work
  std::optional<Length> row_before, row_after;
  bool other_size = false;  // another hook or needle
};

// An entry that doesn't fit what stands before it.
struct Trouble {
  int entry = 0;
  bool skipped = true;  // the entry counts for nothing until that is mended; otherwise it counts, with a reserve
  std::string message;  // "ball C was never added; add it first, or cancel this entry"
  friend bool operator==(const Trouble&, const Trouble&) = default;
};

struct State {
  explicit State(Yarn y) : yarn(std::move(y)) {}

  Yarn yarn;  // in centimetres wherever the yarn per stitch is known
  Ruler ruler;
  Fabric fabric;                                                       // the gauge in force
  std::optional<double> stitches_in_10cm, rows_in_10cm;                // as worked
  std::optional<double> washed_stitches_in_10cm, washed_rows_in_10cm;  // washed and dried
  std::optional<std::string> size;
  GaugeHistory gauge{std::nullopt, Length(), {}};
  std::optional<WorkPlace> at;    // nothing worked yet that was told
  std::optional<WorkPlace> hook;  // where row or rip last said it was; `at` may be a join ahead of it
  std::optional<Length> used;
  Length ravelled;                     // of the yarn at the hook, so much was worked once and is not worked again yet
  std::vector<Sighting> sightings;     // of colours that begin or end in the work, in its order
  std::optional<Begun> begun;          // nothing where that was never told, nor follows
  std::vector<BallState> balls;        // as added
  std::optional<std::size_t> working;  // index of the ball in work
  std::vector<JoinState> joins;        // as recorded
  std::vector<OffcutState> offcuts;    // as they came off
  Totals totals;
  std::optional<Length> planned;  // yarn in the whole work: foundation, rows, edging, and the swatches made
  Left left;
  std::vector<Weighing> weighings;  // as recorded
  std::vector<GaugeChange> gauge_changes;
  std::vector<Trouble> troubles;  // in the order of the entries
  std::vector<bool> cancelled;    // of entry n at [n - 1]

  // Whether entry n, of 1 to as many as there are, is neither cancelled nor skipped.
  [[nodiscard]] bool counts(int entry) const;
  // The ball of that name, exactly as it was added; null: there is none.
  [[nodiscard]] const BallState* find_ball(std::string_view id) const;
  // Whether a join brought it in that lies where it was recorded or later: more may be left of it than is told.
  [[nodiscard]] bool begins_or_later(std::string_view ball) const;
  [[nodiscard]] bool took_other_size() const;  // another hook or needle, ever
};

}  // namespace ballchange
