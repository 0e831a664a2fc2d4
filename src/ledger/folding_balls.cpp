#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "ledger/folding.hpp"
#include "ledger/maybe.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kFewToCompare = 200;  // names are compared with each other for a hint only while they are few

// Of the old ball so much is left where the work stands, which is at the join or past it.
Maybe left_past(const JoinState& join, Maybe left, Maybe stands) {
  const Maybe at_join = sum(left, difference(stands, join.used));
  return difference(at_join, join.trim_old + join.allowance.value_or(Length()) / 2);
}

// So much more than a whole ball was not worked from one alone; an offcut may be longer by as much as was guessed.
constexpr double kNotAlone = 0.5;

}  // namespace

std::string Folding::who(std::size_t ball) const { return "ball " + printable(state_.balls[ball].id, 60); }

std::size_t Folding::known(const std::string& ball) const {
  const auto found = index_.find(ball);
  if (found != index_.end()) return found->second;
  std::string hint;
  if (state_.balls.size() <= kFewToCompare) {
    std::vector<std::string> names;
    for (const BallState& b : state_.balls) names.push_back(b.id);
    if (const auto near = closest(ball, names)) hint = fmt::format("; did you mean {}?", printable(*near, 60));
  }
  refuse("ball {} was never added; add it with ball first{}", printable(ball, 60), hint);
}

// Told, by its mass, or by the ball band.
std::optional<Length> Folding::length_of(const BallState& ball, const std::optional<Amount>& told) const {
  if (told) return length(told, "length");
  if (ball.plain) return std::nullopt;
  const Yarn& yarn = state_.yarn;
  if (!yarn.ball_length) return std::nullopt;
  const bool counted = yarn.reckoning == Reckoning::stitches && !state_.ruler.in_stitches;
  const Length band = counted ? yarn.ball_length->cm() * *state_.ruler.yarn_per_stitch : *yarn.ball_length;
  return ball.mass && yarn.ball_mass ? band * (*ball.mass / *yarn.ball_mass) : band;
}

void Folding::apply(const did::Ball& entry) {
  const auto found = index_.find(entry.ball);
  if (found != index_.end()) {
    amend(found->second, entry);
    return;
  }
  BallState ball;
  ball.id = entry.ball;
  ball.entry = entry_;
  ball.plain = entry.plain;
  ball.mass = entry.mass;
  ball.scale = entry.scale;
  ball.dye_lot = entry.dye_lot;
  ball.outside = entry.outside;
  ball.inside = entry.inside;
  ball.from = entry.from.value_or(BallEnd::outside);
  ball.wound = entry.wound;
  if (entry.offcut || entry.cut_from) {
    be_offcut(ball, entry);
  } else {
    ball.length = length_of(ball, entry.length);
  }
  index_.emplace(entry.ball, state_.balls.size());
  strands_.add(state_.balls.size(), ball.length);
  weighings_of_.emplace_back();
  state_.balls.push_back(std::move(ball));
  check_readings(state_.balls.size() - 1, entry);
}

void Folding::check_amended(std::size_t index, const did::Ball& entry) const {
  const BallState& ball = state_.balls[index];
  did::Ball nothing_new;
  nothing_new.ball = entry.ball;
  if (entry == nothing_new) {
    refuse("{} is there already, since entry {}; tell what is new about it, or name another", who(index), ball.entry);
  }
  if (entry.offcut || entry.cut_from) {
    refuse("{} is there already, since entry {}; name another for the offcut", who(index), ball.entry);
  }
  const bool measured = entry.mass || entry.length || (entry.plain && !ball.plain);
  if (measured && ball.offcut) {
    refuse("{} is {}, and holds what was cut off; leave out {}, {} and {}", who(index),
           cut_off_at(state_.offcuts[*ball.offcut]), named("mass"), named("length"), named("plain"));
  }
  if (measured && !strands_.loose(index)) {
    refuse("{} is in the work already; leave out {} and {}", who(index), named("mass"), named("length"));
  }
  // The end that was named is in the work, and what is read of its ends would change places.
  if (entry.from && *entry.from != ball.from && !strands_.loose(index)) {
    refuse("{0} is in the work already, from its {1} end; leave out {2}, or cancel the entry it came in with",
           who(index), end_name(ball.from), named("from"));
  }
}

// A ball told again: what is new about it.
void Folding::amend(std::size_t index, const did::Ball& entry) {
  check_amended(index, entry);
  BallState next = state_.balls[index];
  next.plain = next.plain || entry.plain;
  if (entry.mass) {
    check_whole_mass(index, entry);
    next.mass = entry.mass;
    next.scale = entry.scale;
  }
  if (entry.mass || entry.length || next.plain != state_.balls[index].plain) {
    // The mass of a plain ball says nothing of its length.
    const bool as_told = next.plain && state_.balls[index].plain && !entry.length;
    if (!as_told) next.length = length_of(next, entry.length);
    measure_anew(index, next);
  }
  if (entry.dye_lot) next.dye_lot = entry.dye_lot;
  if (entry.outside) next.outside = entry.outside;
  if (entry.inside) next.inside = entry.inside;
  if (entry.from) next.from = *entry.from;
  if (entry.wound) next.wound = entry.wound;
  BallState& ball = state_.balls[index];
  ball = std::move(next);
  if (ball.from == BallEnd::outside ? entry.outside : entry.inside) read_again(index);
  check_readings(index, entry);
}

void Folding::read_again(std::size_t ball) {
  const auto asked = to_read_.find(ball);
  if (asked == to_read_.end()) return;
  settled_[static_cast<std::size_t>(asked->second)] = true;
  to_read_.erase(asked);
}

void Folding::ends_changed(std::size_t ball) {
  BallState& b = state_.balls[ball];
  (b.from == BallEnd::outside ? b.outside : b.inside).reset();
  (b.from == BallEnd::outside ? b.outside_as_cut : b.inside_as_cut) = false;
}

// The same for the other end.
void Folding::far_end_changed(std::size_t ball) {
  BallState& b = state_.balls[ball];
  (b.from == BallEnd::outside ? b.inside : b.outside).reset();
  (b.from == BallEnd::outside ? b.inside_as_cut : b.outside_as_cut) = false;
}

// At a knot both loose ends lie inside the ball, and neither is the one that was read.
void Folding::parted(const JoinState& join) {
  const std::size_t ball = index_.at(join.new_ball);
  ends_changed(ball);
  if (join.knot) far_end_changed(ball);
}

// The first ball of the dyed yarn at or after that index.
std::optional<std::size_t> Folding::next_dyed(std::size_t from) {
  while (plain_first_ < state_.balls.size() && state_.balls[plain_first_].plain) ++plain_first_;
  const auto first = static_cast<std::ptrdiff_t>(std::max(from, plain_first_));
  const auto ball =
      std::find_if(state_.balls.begin() + first, state_.balls.end(), [](const BallState& b) { return !b.plain; });
  if (ball == state_.balls.end()) return std::nullopt;
  return static_cast<std::size_t>(ball - state_.balls.begin());
}

void Folding::begin_with(std::size_t ball, Length trim) {
  strands_.begin(ball, trim);
  state_.begun = Begun{0, ball, state_.balls[ball].first_reading(), trim};
  ends_changed(ball);
}

void Folding::apply(const did::Begin& entry) {
  const std::size_t ball = known(entry.ball);
  const Length trim = length(entry.trim_new, "trim_new");
  if (strands_.begun()) refuse("the work is begun already; another ball comes in with a join");
  OffcutState offcut = offcut_of(End::new_end, ball, trim, false, std::nullopt);
  begin_with(ball, trim);
  state_.begun->entry = entry_;
  keep(std::move(offcut));
  aside_.first_trim = trim;
  strands_.stand(state_.at, state_.used);
}

void Folding::apply(const did::Swatch& entry) {
  const std::size_t ball = known(entry.ball);
  const Length used = length(entry.length, "length");
  if (!strands_.has_far_end(ball)) refuse("{} is used up; name the ball the swatch was worked from", who(ball));
  strands_.shorten(ball, used);
  ++breaks_[ball];
  if (!state_.balls[ball].plain) aside_.swatches += used;  // another yarn's counts for no waste
  const BallState& b = state_.balls[ball];
  if (!strands_.loose(ball)) return;
  if (!b.first_reading()) return ends_changed(ball);
  remark(fmt::format("the {} end of {} was read before yarn was taken for a swatch; read it again", end_name(b.from),
                     who(ball)));
  to_read_[ball] = entry_;
  ends_changed(ball);
}

std::optional<Length> Folding::allowance_of(const did::Join& entry, Method method) const {
  if (entry.allowance) return length(entry.allowance, "allowance");
  if (entry.leaves_knot()) return Length();
  if (const auto told = project_.join.allowance_for(method)) return length(told, "allowance");
  const Reckoning reckoning = state_.ruler.in_stitches ? Reckoning::stitches : Reckoning::centimetres;
  const auto range = allowance_range(method, reckoning, state_.gauge.now().yarn_per_stitch);
  return range ? std::optional(range->usual) : std::nullopt;
}

JoinState Folding::join_of(const did::Join& entry) const {
  JoinState join;
  join.entry = entry_;
  join.new_ball = entry.ball;
  join.knot = entry.knot;
  join.at_least = entry.at_least;
  join.knot_left = entry.leaves_knot();
  join.method = join.knot_left ? Method::knotted : entry.method.value_or(project_.join.usual_method());
  join.allowance = allowance_of(entry, join.method);
  join.trim_old = length(entry.trim_old, "trim_old");
  join.trim_new = length(entry.trim_new, "trim_new");
  if (entry.shift) join.shift = length(entry.shift, "shift");
  join.recorded_shift = join.shift;
  if (entry.stitch && !entry.row) refuse("stitch says little without its row; write row too");
  if (entry.at_least && !entry.row) refuse("at_least says little without its row; write row too");
  join.place = entry.row ? place(*entry.row, entry.stitch) : state_.at;
  join.used = join.place ? state_.gauge.used(*join.place) : Length();
  return join;
}

// With the work standing at the join or past it.
void Folding::check_ball(const did::Join& entry, std::size_t ball) {
  if (!strands_.begun()) {
    if (strands_.loose(ball)) return;
  } else if (entry.knot) {
    const std::optional<std::size_t> current = strands_.current().ball;
    if (current == ball) return;
    if (current) refuse("a knot lies within one ball, and {} is being worked; name that one", who(*current));
    refuse("a knot lies within one ball, and {} is not being worked; at a ball change leave out {}", who(ball),
           named("knot"));
  } else if (strands_.current().ball == ball && !strands_.loose(ball)) {
    refuse("{} is being worked already; tell a knot inside it with {}, or name the fresh ball", who(ball),
           entry_ == just_told_ ? "--knot" : "knot: true");
  } else if (strands_.loose(ball) || strands_.next_ahead() == ball) {
    return;
  }
  refuse("{} is used up or joined already; name a fresh ball", who(ball));
}

// The old ball of the first join, when no begin told it: the one named at a knot, otherwise the first added. Where that
// is the fresh one, the ball that ended is not on record.
void Folding::begin_with_old(const did::Join& entry, std::size_t joined) {
  std::optional<std::size_t> old = joined;
  if (!entry.knot) {
    old = next_dyed(0);
    if (old == joined) old.reset();
  }
  if (old) {
    begin_with(*old, Length());
  } else {
    strands_.begin_unknown();
  }
}

// With the work standing at the join or past it.
void Folding::check_order(const JoinState& join) {
  const JoinState* last = strands_.begun() ? strands_.last_landed() : nullptr;
  const bool before = last != nullptr && (last->used && join.used ? *join.used + Length::cm(1e-6) < *last->used
                                                                  : last->place && join.place < last->place);
  if (!before) return;
  refuse(
      "it lies before the join of entry {}; write {} and {} where it fell, or, if it was only forgotten, cancel entry "
      "{} first, record this one and then that one again",
      last->entry, named("row"), named("stitch"), last->entry);
}

// Remarks where the old ball can't have reached that far: another came in before, or the place is a slip.
bool Folding::reaches(const JoinState& join, std::size_t ball) {
  const Maybe length = state_.balls[ball].length;
  if (!length || !join.old_left || !join.used) return true;
  const Length whole = std::max(*length, length_of(BallState(), std::nullopt).value_or(Length()));
  if (*join.old_left >= -kNotAlone * whole) return true;
  if (state_.begins_or_later(join.old_ball)) return true;
  const auto end = state_.gauge.place(*join.used + *join.old_left);
  if (!end) return true;
  if (entry_ == just_told_) return false;  // whoever records it tells more
  const std::string_view row = row_word(state_.fabric.working);
  remark(
      fmt::format("by the record {} reaches only about {} {}, and the join at {} {} can't be where it ends: was a "
                  "join not recorded, or is that {} a slip?",
                  who(ball), row, end->row, row, join.place->row, row));
  return false;
}

// The old ball's part in it. False where it can't have reached that far.
bool Folding::take_old_ball(JoinState& join, std::size_t old_ball, Maybe stands) {
  join.old_ball = state_.balls[old_ball].id;
  if (join.knot) {
    ++breaks_[old_ball];
    return true;
  }
  join.old_left = left_past(join, strands_.left_in_work(), stands);
  far_end_changed(old_ball);
  return reaches(join, old_ball);
}

void Folding::apply(const did::Join& entry) {
  const std::size_t ball = known(entry.ball);
  JoinState join = join_of(entry);
  const std::optional<WorkPlace> at = std::max(state_.at, join.place);
  const std::optional<Length> used = at ? state_.gauge.used(*at) : Length();
  strands_.stand(at, used);
  try {
    check_ball(entry, ball);
    check_order(join);
  } catch (const Problem&) {
    strands_.stand(state_.at, state_.used);
    throw;
  }
  if (!strands_.begun()) begin_with_old(entry, ball);
  if (const auto freed = strands_.cut_out()) parted(state_.joins[*freed]);
  const std::optional<std::size_t> old_ball = strands_.current().ball;
  OffcutState off_old = offcut_of(End::old_end, old_ball, join.trim_old, join.knot, entry.old_reading);
  OffcutState off_new = offcut_of(End::new_end, ball, join.trim_new, join.knot, entry.new_reading);
  const bool reached = !old_ball || take_old_ball(join, *old_ball, used);
  if (!join.allowance) {
    remark("its allowance is counted in stitches; tell the yarn per stitch with gauge, or it counts as nothing");
  }
  check_readings(entry);
  state_.joins.push_back(std::move(join));
  state_.ravelled = Length();
  state_.at = at;
  state_.used = used;
  off_new.holds_join = strands_.join(ball, reached) > 0;
  ends_changed(ball);
  keep(std::move(off_old));
  keep(std::move(off_new));
}

}  // namespace ballchange
