#include <algorithm>
#include <cmath>

#include "join/advice.hpp"
#include "join/alternatives.hpp"
#include "join/choice.hpp"
#include "join/split.hpp"
#include "join/target.hpp"

// The craft's rule of thumb: used on the old + kept on the new - allowance = one whole section. It needs no repeat,
// only the whole length of the section the join falls in.
namespace ballchange {

using namespace joining;

namespace {

// Longer than any strand: without a repeat nothing comes round again.
constexpr Length endless = Length::cm(1e9);

// A section of a known whole length on one strand: how much of it there is to join in, and what lies before it.
struct Place {
  std::size_t changes = 0;
  Length there;      // used so far (old), left (new)
  Length outside;    // yarn between the loose end and this section
  std::string next;  // the colour at the change a cut here is told from
  bool seen = true;  // that change lies within the reading
  // The section between it and the loose end, as far as it was read: an overlap may reach into it. On the new end, and
  // where this section is whole.
  std::optional<ColourId> colour_before;
  Length before;
};

struct Fit {
  Length whole;
  ColourId colour = 0;
  Place on_old, on_new;
  Target target;       // trims in this section, both ends together, and the shift that leaves
  Length kept_before;  // so much is kept of the section before this one on the new end

  [[nodiscard]] Length lost() const { return target.trims + on_old.outside + on_new.outside - kept_before; }
};

std::optional<Length> whole_of(const std::vector<WholeSection>& wholes, ColourId colour) {
  for (const WholeSection& whole : wholes) {
    if (whole.colour == colour) return whole.length;
  }
  return std::nullopt;
}

// Where on the strand that colour can be joined in: entries whose marking change is known, or for the new end also the
// open one, whose end shows when more is pulled out.
std::vector<Place> places(const Reading& reading, ColourId colour, Length whole, const Palette& palette) {
  std::vector<Place> found;
  Length outside;
  for (std::size_t index = 0; index < reading.entries.size(); ++index) {
    const Entry& entry = reading.entries[index];
    const bool last = index + 1 == reading.entries.size();
    const bool seen = !last || reading.bar_at_open_end;
    if (entry.colour == colour && (seen || reading.end == End::new_end)) {
      Place place;
      place.changes = index;
      place.outside = outside;
      place.seen = seen;
      place.there = entry.length.value_or(whole);
      if (!seen) place.there = std::max(place.there, whole);
      if (!last) place.next = palette.colours[reading.entries[index + 1].colour].name;
      if (index > 0) {
        place.colour_before = reading.entries[index - 1].colour;
        place.before = reading.entries[index - 1].length.value_or(Length());
      }
      found.push_back(place);
    }
    outside += entry.length.value_or(Length());
    if (!entry.length) break;  // how much lies before the next entry is not known
  }
  return found;
}

class WholeAdvising {
 public:
  WholeAdvising(const Palette& palette, const std::vector<WholeSection>& wholes, const Reading& old_reading,
                const Reading& new_reading, Reckoning reckoning, const Fabric& fabric, std::optional<RowStitch> hook,
                const JoinWish& wish, Advice& advice)
      : palette_(palette),
        wholes_(wholes),
        old_(old_reading),
        new_(new_reading),
        reckoning_(reckoning),
        habit_(habits(reckoning)),
        fabric_(fabric),
        hook_(hook),
        wish_(wish),
        advice_(advice) {}

  void advise() {
    const std::optional<Length> whole = whole_of(wholes_, old_.entries.front().colour);
    if (!whole) {
      const std::string& name = palette_.colours[old_.entries.front().colour].name;
      throw Lacking(Lacking::Fact::whole_length,
                    "the old strand ends in " + name + ": tell how long a whole section of it is", name);
    }
    for (const Reading* reading : {&old_, &new_}) {
      if (needs_first_length(*reading)) return ask(*reading);
    }
    if (lengths_in_question() || runs_in_question()) return;
    const std::optional<Fit> best = best_fit(advice_.allowance, cautious());
    if (wish_.knot && leaves_the_knot(best)) return;
    advice_.joins.push_back(best ? join_at(*best) : in_next_section(*whole));
    remark_on_room();
    offer_alternatives();
  }

 private:
  void ask(const Reading& reading) {
    advice_.verdict = JoinVerdict::measure_more;
    (reading.entries.front().length ? advice_.ask_next_colour : advice_.ask_first_length) = reading.end;
  }

  // Sections of one colour differ by some 6 %, and the tape errs too: more than twice that is no such section. What is
  // used of the one in hand counts against its whole length, where nothing but the tape may err.
  [[nodiscard]] Length longest(Length whole, bool in_hand) const {
    if (in_hand) return whole + 2 * (wish_.tape.fixed + wish_.tape.share * whole);
    return 1.12 * whole + 2 * habit_.tape_fixed;
  }

  [[nodiscard]] bool lengths_in_question() {
    for (const Reading* reading : {&old_, &new_}) {
      for (const Entry& entry : reading->entries) {
        const std::optional<Length> whole = whole_of(wholes_, entry.colour);
        const bool in_hand = reading == &old_ && &entry == &old_.entries.front();
        if (!whole || !entry.length || *entry.length <= longest(*whole, in_hand)) continue;
        advice_.verdict = JoinVerdict::measure_more;
        advice_.too_long = TooLong{reading->end, palette_.colours[entry.colour].name, *entry.length, *whole};
        return true;
      }
    }
    return false;
  }

  [[nodiscard]] bool runs_in_question() {
    if (wish_.either_way) return false;
    advice_.opposite = opposite_ways(old_, new_);
    if (!advice_.opposite) return false;
    advice_.verdict = advice_.opposite->same_beyond ? JoinVerdict::turn_ball : JoinVerdict::measure_more;
    return true;
  }

  // The length may be written and yet say only how far somebody measured.
  static bool needs_first_length(const Reading& reading) {
    const bool no_change_seen = reading.entries.size() == 1 && !reading.bar_at_open_end;
    return !reading.bar_at_loose_end && (no_change_seen || !reading.entries.front().length);
  }

  void remark_on_room() {
    if (!old_.loose) return advice_.remarks.push_back(Remark::loose_unknown);
    const Length needed = advice_.allowance + wish_.room.value_or(habit_.room);
    if (*old_.loose >= needed) return;
    advice_.remarks.push_back(Remark::not_enough_room);
    advice_.ravel_back = needed - *old_.loose;
  }

  [[nodiscard]] Length cautious() const { return std::max(Length(), advice_.tolerance - habit_.join_doubt); }

  // A section hardly longer than the overlap shows the join at both its changes: taken only when it saves something.
  [[nodiscard]] Length price(const Fit& fit, Length allowance) const {
    const bool roomy = fit.whole >= allowance + 2 * habit_.margin;
    return fit.lost() + (roomy ? Length() : 2 * habit_.margin);
  }

  // What may come off the old end before the hook is too near.
  [[nodiscard]] Length spare(Length allowance) const {
    const Length loose = old_.loose ? *old_.loose : old_.measured();
    return std::max(Length(), loose - allowance - wish_.room.value_or(habit_.room));
  }

  // Used + left - whole: what must leave the work where the join falls into this section.
  [[nodiscard]] static Length over(const Place& on_old, const Place& on_new, Length whole) {
    return on_old.there + on_new.there - whole;
  }

  [[nodiscard]] Limits limits(Length tolerance) const {
    return {tolerance, wish_.from_the_start ? wish_.out_of_step : Length(), wish_.sparing};
  }

  // Without a known repeat nothing but this section, and on the new end what the overlap needs of the one before it,
  // can be cut back to: there must be enough of it.
  [[nodiscard]] std::optional<Fit> fitted(Fit fit, Length allowance, Length most_skip) const {
    Length between = over(fit.on_old, fit.on_new, fit.whole);
    const auto enough = [&] {
      fit.target = trims_or_skip({endless, between}, allowance, limits(cautious()), most_skip);
      return fit.target.trims <= endless / 2;
    };
    if (enough()) return fit;
    if (!fit.on_new.colour_before || !same_before(fit)) return std::nullopt;
    between += fit.on_new.before;
    if (!enough()) return std::nullopt;
    fit.kept_before = fit.on_new.before - fit.target.trims;
    fit.target.trims = Length();
    if (fit.kept_before > allowance + hardly) return std::nullopt;
    return fit;
  }

  // The colour before it on the old strand, where that is known, must come before it on the new one too.
  [[nodiscard]] bool same_before(const Fit& fit) const {
    return fit.on_old.next.empty() || fit.on_old.next == palette_.colours[*fit.on_new.colour_before].name;
  }

  // The cheapest of all pairs of places of one colour, one on each strand; a skip up to `most_skip` is taken as it is.
  [[nodiscard]] std::optional<Fit> best_fit(Length allowance, Length most_skip) const {
    std::optional<Fit> best;
    for (const WholeSection& section : wholes_) {
      for (const Place& on_old : places(old_, section.colour, section.length, palette_)) {
        if (on_old.outside > spare(allowance)) continue;
        for (const Place& on_new : places(new_, section.colour, section.length, palette_)) {
          const Fit pair{section.length, section.colour, on_old, on_new, {}, {}};
          const std::optional<Fit> fit = fitted(pair, allowance, most_skip);
          if (fit && (!best || price(*fit, allowance) < price(*best, allowance))) best = fit;
        }
      }
    }
    return best;
  }

  // A knot through which the colours run on is best left and secured.
  [[nodiscard]] bool leaves_the_knot(const std::optional<Fit>& cut) {
    const Entry& used = old_.entries.front();
    const Entry& left = new_.entries.front();
    if (used.colour != left.colour || !used.length || !left.length) return false;
    // At a bar the section ends: it can't run on through the knot.
    if (old_.bar_at_loose_end || new_.bar_at_loose_end) return false;
    const std::optional<Length> whole = whole_of(wholes_, used.colour);
    const Length shift = *whole - *used.length - *left.length;
    advice_.knot_shift = shift;
    if (!limits(cautious()).allow(shift)) return false;
    Join leave;
    leave.leave_knot = true;
    leave.trim_old = leave.trim_new = leave.discard = Length();
    leave.shift = shift;
    leave.running_shift = advice_.out_of_step + shift;
    leave.colour = palette_.colours[used.colour].name;
    leave.into = *used.length;
    leave.old_mark.changes = leave.new_mark.changes = 0;
    leave.old_mark.colour = leave.new_mark.colour = leave.colour;
    leave.old_mark.distance = *used.length;
    leave.new_mark.from = MarkFrom::end;
    leave.new_mark.distance = *left.length;
    leave.to_join = old_.loose;
    if (cut) advice_.cut_knot_out = Alternative{advice_.method, advice_.allowance, cut->lost(), cut->target.shift};
    advice_.joins.push_back(leave);
    return true;
  }

  void offer_alternatives() {
    const Join& join = advice_.joins.front();
    // Nothing is known of the fibre: felting is the crafter's own word.
    Offers offers{
        reckoning_, fabric_.yarn_per_stitch, method_row(advice_.method).only_if_felts, habit_.worth_telling, {}, {}};
    if (join.discard) offers.now = *join.discard + join.allowance;
    const auto cost = [&](Method method, Length allowance) -> std::optional<Alternative> {
      const std::optional<Fit> fit = best_fit(allowance, advice_.tolerance);
      if (!fit) return std::nullopt;
      return Alternative{method, allowance, fit->lost(), fit->target.shift};
    };
    advice_.alternatives = alternatives(offers, advice_.method, advice_.allowance, cost);
  }

  [[nodiscard]] Join join_at(const Fit& fit) const {
    Join join;
    // The new end is trimmed; what it cannot give comes off the old one.
    const Length from_new = std::min(fit.target.trims, fit.on_new.there);
    const Length from_old = fit.target.trims - from_new;
    join.trim_old = fit.on_old.outside + from_old;
    join.trim_new = fit.on_new.outside + from_new - fit.kept_before;
    join.discard = *join.trim_old + *join.trim_new;
    join.shift = fit.target.shift;
    join.old_mark = mark(fit.on_old, fit.colour, MarkFrom::start, fit.on_old.there - from_old);
    join.new_mark = mark(fit.on_new, fit.colour, MarkFrom::end, fit.on_new.there - from_new);
    complete(join, fit.colour, fit.whole, fit.on_old.there - from_old);
    if (fit.kept_before > Length()) mark_before(fit, join);
    return join;
  }

  // The cut lies in the section before: both strands then show the same change inside the overlap.
  void mark_before(const Fit& fit, Join& join) const {
    const std::string before = palette_.colours[*fit.on_new.colour_before].name;
    join.new_mark = {fit.on_new.changes - 1, before, MarkFrom::end, fit.kept_before, join.colour, true};
    const Length apart = fit.on_old.there + fit.kept_before - advice_.allowance;
    if (apart < -kOnEachOther || apart > habit_.join_doubt) return;
    join.dry_fit = DryFit{join.old_mark.next_colour, join.colour, before, join.colour, std::max(Length(), apart)};
  }

  // Too little left: the next such section of the new ball, of which the strand in hand does not show enough.
  [[nodiscard]] Join in_next_section(Length whole) {
    Join join;
    const ColourId colour = old_.entries.front().colour;
    const bool one_colour = old_.entries.size() == 1;
    const bool whole_used = old_.bar_at_loose_end && one_colour && !old_.bar_at_open_end;
    const Length there = whole_used ? whole : old_.entries.front().length.value_or(whole);
    // Even with nothing kept of the next one no more than this fits in.
    const Length used = std::min(there, whole + advice_.allowance);
    remark_on_next_section(colour, whole);
    join.trim_old = there - used;
    Place here;
    here.there = there;
    if (!one_colour) here.next = palette_.colours[old_.entries[1].colour].name;
    join.old_mark = mark(here, colour, MarkFrom::start, used);
    Place further;
    further.seen = false;
    join.new_mark = mark(further, colour, MarkFrom::end, whole + advice_.allowance - used);
    complete(join, colour, whole, used);
    if (used < advice_.allowance - hardly) {
      // The overlap reaches beyond that section: the mark lies before it.
      join.new_mark.colour = join.old_mark.next_colour;
      join.new_mark.distance = advice_.allowance - used;
      join.new_mark.next_colour = join.colour;
    }
    join.new_mark.changes.reset();
    return join;
  }

  void remark_on_next_section(ColourId colour, Length whole) {
    if (!places(new_, colour, whole, palette_).empty()) return advice_.remarks.push_back(Remark::next_section);
    const auto shows = [&](const Entry& entry) { return entry.colour == colour; };
    if (std::none_of(new_.entries.begin(), new_.entries.end(), shows)) advice_.remarks.push_back(Remark::not_seen_yet);
  }

  [[nodiscard]] Mark mark(const Place& place, ColourId colour, MarkFrom from, Length distance) const {
    return {place.changes, palette_.colours[colour].name, from, distance, place.next, place.seen};
  }

  void complete(Join& join, ColourId colour, Length whole, Length used) const {
    join.allowance = advice_.allowance;
    join.running_shift = advice_.out_of_step + join.shift;
    join.colour = palette_.colours[colour].name;
    // With less used the overlap lies across its start; more than the whole is used of one that came out long.
    join.into = std::clamp(used - advice_.allowance / 2, Length(), whole);
    join.dry_fit =
        DryFit{join.old_mark.next_colour, join.colour, join.colour, join.new_mark.next_colour, whole - join.shift};
    if (old_.loose) join.to_join = std::max(Length(), *old_.loose - *join.trim_old - advice_.allowance / 2);
    const auto begins = join.to_join ? std::optional(*join.to_join + advice_.allowance / 2 - used) : std::nullopt;
    join.afterwards = joining::section_stitches(fabric_, hook_, begins, join.dry_fit->length);
    if (!old_.loose) return;
    if (hook_ && fabric_.yarn_per_stitch) {
      join.lands = landing(fabric_, *hook_, *join.to_join);
      join.give_or_take = joining::give_or_take(fabric_, wish_.tape, *join.to_join);
    }
  }

  const Palette& palette_;
  const std::vector<WholeSection>& wholes_;
  const Reading& old_;
  const Reading& new_;
  Reckoning reckoning_;
  Habits habit_;
  const Fabric& fabric_;
  std::optional<RowStitch> hook_;
  const JoinWish& wish_;
  Advice& advice_;
};

}  // namespace

Advice advise_whole(const Palette& palette, const std::vector<WholeSection>& wholes, const Reading& old_reading,
                    const Reading& new_reading, Reckoning reckoning, const Fabric& fabric,
                    std::optional<RowStitch> hook, const JoinWish& wish) {
  // A felted join is taken on the crafter's word.
  Advice advice = advice_on(terms_in_force(wish, fabric, reckoning, true), wish);
  WholeAdvising(palette, wholes, old_reading, new_reading, reckoning, fabric, hook, wish, advice).advise();
  return advice;
}

}  // namespace ballchange
