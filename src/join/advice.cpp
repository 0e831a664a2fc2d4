#include "join/advice.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <utility>

#include "join/alternatives.hpp"
#include "join/choice.hpp"
#include "join/shorter.hpp"
#include "join/split.hpp"
#include "join/target.hpp"

namespace ballchange {

using namespace joining;

namespace {

constexpr double many_times = 10;  // so much more cut off than would be skipped: another crafter might rather skip

// A strand on a repeat that mirrors itself within the noise, as if it ran forward.
Strand turned_round(const Repeat& repeat, Length axis, const Strand& strand) {
  Strand turned = strand;
  Candidate& best = turned.placing.candidates.front();
  best.direction = Direction::forward;
  best.place = wrap(axis - best.place, repeat.total());
  turned.placing.place = best.place;
  const auto mirror = [&](std::size_t section) {
    const Length middle = repeat.start(section) + repeat.sections()[section].length / 2;
    return repeat.spot(axis - middle).section;
  };
  for (Explained& explained : turned.placing.why) {
    for (std::size_t& section : explained.sections) section = mirror(section);
  }
  return turned;
}

// On a repeat that mirrors itself: ends that run backward, as if they ran forward.
void turn_forward(const Repeat& repeat, std::initializer_list<Strand*> strands) {
  const std::optional<Length> axis = mirror_axis(repeat);
  if (!axis) return;
  for (Strand* strand : strands) {
    Placing& placing = strand->placing;
    if (placing.candidates.empty() || placing.best().direction == Direction::forward) continue;
    *strand = turned_round(repeat, *axis, *strand);
    placing.ask.reset();
  }
}

// Both ends as they lie on the shortest repeat, forward where the yarn looks the same either way.
struct Ends {
  Repeat repeat;
  Strand old_end, new_end;
};
Ends brought_together(const Yarn& yarn, const Strand& old_strand, const Strand& new_strand) {
  const Repeat repeat = shortest(yarn.repeat, habits(yarn.reckoning).join_doubt);
  Ends ends{repeat, on_shorter(yarn.repeat, repeat, old_strand), on_shorter(yarn.repeat, repeat, new_strand)};
  turn_forward(repeat, {&ends.old_end, &ends.new_end});
  return ends;
}

std::optional<JoinVerdict> cannot_join(const Placing& old_placing, const Placing& new_placing) {
  const auto either = [&](Verdict verdict) { return old_placing.verdict == verdict || new_placing.verdict == verdict; };
  if (either(Verdict::no_fit)) return JoinVerdict::no_fit;
  if (either(Verdict::unsettled)) return JoinVerdict::measure_more;
  if (old_placing.best().direction != new_placing.best().direction) return JoinVerdict::turn_ball;
  // Both run the same way, but not the way one of them was expected to: ask before anything is cut.
  if (old_placing.ask || new_placing.ask) return JoinVerdict::measure_more;
  return std::nullopt;
}

class Advising {
 public:
  Advising(const Yarn& yarn, const Ends& ends, const Fabric& fabric, std::optional<RowStitch> hook,
           const JoinWish& wish, Advice& advice)
      : yarn_(yarn),
        direction_(ends.old_end.placing.best().direction),
        repeat_(direction_ == Direction::forward ? ends.repeat : ends.repeat.mirrored()),
        old_(ends.old_end),
        new_(ends.new_end),
        wish_(wish),
        bench_{repeat_, fabric, hook, old_.reading.loose, habits(yarn.reckoning), wish.tape, Edge::any},
        old_place_(in_order(old_.placing.best().place)),
        gap_{repeat_.total(), wrap(old_place_ - in_order(new_.placing.best().place), repeat_.total())},
        advice_(advice) {
    bench_.whole_stitches = yarn.reckoning == Reckoning::stitches;
    bench_.edge = wish.edge;
    if (bench_.edge == Edge::as_method) bench_.edge = method_row(advice.method).likes_edge ? Edge::seek : Edge::avoid;
  }

  void advise() {
    const Target target = least_trims(gap_, advice_.allowance, cautious());
    const Length between = nearest(gap_.between, gap_.period);
    if (abs(between) <= std::max(cautious().tolerance, bench_.habits.join_doubt) + hardly) remark(Remark::ends_follow);
    if (direction_ == Direction::backward) remark(Remark::both_backward);
    if (wish_.knot && leaves_the_knot(target)) return;
    join_with(target);
    if (advice_.joins.empty()) return;
    offer_alternatives(target);
    if (!wish_.knot) offer_as_they_are(target);
  }

 private:
  [[nodiscard]] Length in_order(Length place) const {
    return direction_ == Direction::forward ? place : wrap(-place, repeat_.total());
  }

  [[nodiscard]] Limits limits(Length tolerance) const {
    return {tolerance, wish_.from_the_start ? wish_.out_of_step : Length(), wish_.sparing};
  }
  // The join itself is uncertain, so what is aimed at keeps that much inside the tolerance.
  [[nodiscard]] Limits cautious() const {
    return limits(std::max(Length(), advice_.tolerance - bench_.habits.join_doubt));
  }

  void remark(Remark what) { advice_.remarks.push_back(what); }

  void join_with(const Target& target) {
    const Length room = wish_.room.value_or(bench_.habits.room);
    const Length known = bench_.loose ? *bench_.loose : old_.reading.measured();
    const Length spare = known - advice_.allowance - room;
    if (!bench_.loose) {
      remark(Remark::loose_unknown);
    } else if (spare < Length()) {
      remark(Remark::not_enough_room);
      advice_.ravel_back = -spare;
    }
    const Length most_old = std::clamp(spare, Length(), target.trims);
    if (new_.cut_short) bench_.least_old = std::max(Length(), target.trims - most_off_offcut(room));
    if (bench_.least_old > most_old + hardly) return too_short(bench_.least_old - most_old);
    const Walk old_walk(repeat_, old_, direction_, most_old);
    const Walk new_walk(repeat_, new_, direction_, target.trims);
    const auto ranked = [&](const Bench& bench) {
      return rank_splits(bench, old_walk, new_walk, old_place_, target.trims, advice_.allowance, most_old);
    };
    std::optional<Length> lacking;
    for (const Split& split : ranked(bench_)) {
      // Sections longer than usual take more off the offcut in hand than on the repeat.
      const Length over = new_.cut_short ? split.new_cut.trim - most_off_offcut(room) : Length();
      if (over <= hardly) {
        advice_.joins.push_back(join_by(split, target));
      } else {
        lacking = std::min(over, lacking.value_or(over));
      }
    }
    if (advice_.joins.empty()) return too_short(lacking.value_or(bench_.habits.least_trim));
    const Join& best = advice_.joins.front();
    if (best.old_mark.from == MarkFrom::loose_end && *best.trim_old > Length()) remark(Remark::cut_not_markable);
    if (*best.trim_old <= hardly || bench_.edge == Edge::any || new_.cut_short) return;
    Bench anywhere = bench_;
    anywhere.edge = Edge::any;
    if (ranked(anywhere).front().trim_old <= hardly) remark(Remark::cut_for_edge);
  }

  // What an offcut can spare: both overlaps and something to hold in the hand must be left of it.
  [[nodiscard]] Length most_off_offcut(Length room) const {
    return new_.reading.measured() - 2 * advice_.allowance - room;
  }
  void too_short(Length by) {
    advice_.verdict = JoinVerdict::no_fit;
    advice_.too_short = by;
  }

  [[nodiscard]] Join join_by(const Split& split, const Target& target) const {
    Join join;
    join.trim_old = split.old_cut.trim;
    join.trim_new = split.new_cut.trim;
    join.discard = split.old_cut.trim + split.new_cut.trim;
    join.allowance = advice_.allowance;
    join.shift = target.shift;
    join.running_shift = advice_.out_of_step + target.shift;
    const Spot spot = repeat_.spot(split.middle);
    join.section = spot.section;
    join.colour = repeat_.name_of(spot.section);
    join.into = spot.into;
    join.old_mark = split.old_cut.mark;
    join.new_mark = split.new_cut.mark;
    join.to_join = split.to_join;
    join.whole_overlap_inside = split.inside;
    join.at_edge = split.at_edge;
    join.lands = split.lands;
    if (split.lands) join.give_or_take = give_or_take(bench_.fabric, bench_.tape, *split.to_join);
    add_dry_fit(split, join);
    return join;
  }

  void add_dry_fit(const Split& split, Join& join) const {
    for (const Walk::Cut* cut : {&split.old_cut, &split.new_cut}) {
      if (cut->mark.from == MarkFrom::loose_end) return;
    }
    Length length = split.old_cut.kept + split.new_cut.kept - advice_.allowance;
    const Mark& old_mark = split.old_cut.mark;
    const Mark& new_mark = split.new_cut.mark;
    const bool both_kept = old_mark.from == MarkFrom::start && new_mark.from == MarkFrom::end;
    if (!both_kept && length < -kOnEachOther) return;
    if (both_kept && split.old_cut.section == split.new_cut.section && length >= Length()) {
      const Length into = split.old_cut.kept - advice_.allowance / 2;
      const auto begins = split.to_join ? std::optional(*split.to_join - into) : std::nullopt;
      join.afterwards = section_stitches(bench_.fabric, bench_.hook, begins, length);
    }
    DryFit fit;
    fit.from_before = old_mark.next_colour;
    fit.from_after = old_mark.colour;
    fit.to_before = new_mark.colour;
    fit.to_after = new_mark.next_colour;
    if (old_mark.from == MarkFrom::end) std::swap(fit.from_before, fit.from_after);
    if (new_mark.from == MarkFrom::start) std::swap(fit.to_before, fit.to_after);
    // Sections shorter than the overlap lie wholly inside it, and a shift takes a change past the other: one further on
    // the new strand is the one to meet.
    for (std::size_t next = split.new_cut.after; length < -kOnEachOther; next = (next + 1) % repeat_.size()) {
      length += repeat_.sections()[next].length;
      fit.to_before = repeat_.name_of(next);
      fit.to_after = repeat_.name_of((next + 1) % repeat_.size());
    }
    fit.length = std::max(Length(), length);
    join.dry_fit = fit;
  }

  // What another method or length would cost; skips up to the whole tolerance.
  [[nodiscard]] Alternative price(Method method, Length allowance) const {
    const Target target = trims_or_skip(gap_, allowance, cautious(), advice_.tolerance);
    return {method, allowance, target.trims, target.shift};
  }

  void offer_alternatives(const Target& target) {
    const Offers offers{yarn_.reckoning,
                        bench_.fabric.yarn_per_stitch,
                        yarn_.felts,
                        bench_.habits.worth_telling,
                        target.trims + advice_.allowance,
                        {gap_.between}};
    advice_.alternatives = alternatives(offers, advice_.method, advice_.allowance,
                                        [&](Method method, Length allowance) { return price(method, allowance); });
  }

  // Nearly a whole repeat cut off for a small skip: the crafter may rather have the skip. One within the whole
  // tolerance is worth it as soon as it saves anything worth telling.
  void offer_as_they_are(const Target& target) {
    if (target.trims < bench_.habits.worth_telling - hardly) return;
    const Length skip = nearest(advice_.allowance - gap_.between, gap_.period);
    if (skip < Length()) return;
    if (!limits(advice_.tolerance).allow(skip) && target.trims <= many_times * skip) return;
    advice_.join_as_they_are = Alternative{advice_.method, advice_.allowance, Length(), skip};
  }

  // A knot through which the colours run on is best left and secured.
  [[nodiscard]] bool leaves_the_knot(const Target& target) {
    const Length shift = nearest(-gap_.between, gap_.period);
    advice_.knot_shift = shift;
    if (!cautious().allow(shift)) return false;
    advice_.cut_knot_out = Alternative{advice_.method, advice_.allowance, target.trims, target.shift};
    Join leave;
    leave.leave_knot = true;
    leave.trim_old = leave.trim_new = leave.discard = Length();
    leave.shift = shift;
    leave.running_shift = advice_.out_of_step + shift;
    const Spot spot = repeat_.spot(old_place_);
    leave.section = spot.section;
    leave.colour = repeat_.name_of(spot.section);
    leave.into = spot.into;
    leave.old_mark = Walk(repeat_, old_, direction_, Length()).cut(Length(), wish_.tape).mark;
    leave.new_mark = Walk(repeat_, new_, direction_, Length()).cut(Length(), wish_.tape).mark;
    leave.to_join = bench_.loose;
    if (bench_.loose && bench_.hook && bench_.fabric.yarn_per_stitch) {
      leave.lands = landing(bench_.fabric, *bench_.hook, *bench_.loose);
      leave.give_or_take = give_or_take(bench_.fabric, bench_.tape, *bench_.loose);
    }
    advice_.joins.push_back(leave);
    return true;
  }

  const Yarn& yarn_;
  Direction direction_;
  Repeat repeat_;
  const Strand& old_;
  const Strand& new_;
  const JoinWish& wish_;
  Bench bench_;
  Length old_place_;
  Gap gap_;
  Advice& advice_;
};

}  // namespace

Advice advise(const Yarn& yarn, const Strand& old_strand, const Strand& new_strand, const Fabric& fabric,
              std::optional<RowStitch> hook, const JoinWish& wish) {
  Advice advice = advice_on(terms_in_force(wish, fabric, yarn.reckoning, yarn.felts), wish);
  const Ends ends = brought_together(yarn, old_strand, new_strand);
  if (const std::optional<JoinVerdict> verdict = cannot_join(ends.old_end.placing, ends.new_end.placing)) {
    advice.verdict = *verdict;
    return advice;
  }
  advice.sureness = old_strand.placing.sureness * new_strand.placing.sureness;
  Advising(yarn, ends, fabric, hook, wish, advice).advise();
  return advice;
}

std::optional<Length> shift_left(const Yarn& yarn, const Strand& old_strand, const Strand& new_strand, const Cut& cut) {
  const Ends ends = brought_together(yarn, old_strand, new_strand);
  const Placing& old_placing = ends.old_end.placing;
  const Placing& new_placing = ends.new_end.placing;
  const bool settled = old_placing.verdict == Verdict::settled && new_placing.verdict == Verdict::settled;
  if (!settled || old_placing.best().direction != new_placing.best().direction) return std::nullopt;
  const Direction direction = old_placing.best().direction;
  const Repeat repeat = direction == Direction::forward ? ends.repeat : ends.repeat.mirrored();
  const Length old_gone = Walk(repeat, ends.old_end, direction, cut.trim_old + repeat.total()).gone(cut.trim_old);
  const Length new_gone = Walk(repeat, ends.new_end, direction, cut.trim_new + repeat.total()).gone(cut.trim_new);
  const Length between = new_placing.best().place - old_placing.best().place;
  const Length apart = direction == Direction::forward ? between : -between;
  return nearest(apart + old_gone + new_gone + cut.allowance, repeat.total());
}

}  // namespace ballchange
