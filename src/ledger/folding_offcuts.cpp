#include <fmt/core.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "base/text.hpp"
#include "ledger/folding.hpp"

namespace ballchange {
namespace {

constexpr Length kHair = Length::cm(1e-3);  // what four decimals of any unit leave open

}  // namespace

// "the offcut of entry 12", and with two of them "the offcut of entry 12 (cut_from: old)".
std::string Folding::cut_off_at(const OffcutState& offcut) const {
  const auto of_entry = [](const OffcutState& a, const OffcutState& b) { return a.entry < b.entry; };
  const auto [first, last] = std::equal_range(state_.offcuts.begin(), state_.offcuts.end(), offcut, of_entry);
  const bool two = last - first > 1;
  if (!two) return fmt::format("the offcut of entry {}", offcut.entry);
  return fmt::format("the offcut of entry {} (from the {} end)", offcut.entry, cut_from_name(offcut.cut_from));
}

// What may come off an end, as both ends are before the join.
OffcutState Folding::offcut_of(End end, std::optional<std::size_t> ball, Length length, bool knot,
                               const std::optional<std::string>& reading) const {
  OffcutState offcut;
  offcut.entry = entry_;
  offcut.cut_from = end;
  offcut.ball = ball;
  offcut.length = length;
  offcut.knot = knot;
  offcut.reading = reading;
  // At a knot both loose ends lie inside the ball: nothing that was known of its ends says where.
  if (!ball || knot) return offcut;
  const BallState& b = state_.balls[*ball];
  if (!reading) offcut.reading = end == End::new_end ? b.first_reading() : b.other_reading();
  if (end == End::new_end ? b.first_as_cut() : b.other_as_cut()) offcut.of = b.offcut;
  return offcut;
}

void Folding::keep(OffcutState offcut) {
  if (offcut.length > Length()) state_.offcuts.push_back(std::move(offcut));
}

std::size_t Folding::kept_offcut(int entry, std::optional<End> cut_from) const {
  const std::vector<OffcutState>& all = state_.offcuts;
  // They stand in the order of the entries.
  const auto first =
      std::lower_bound(all.begin(), all.end(), entry, [](const OffcutState& o, int n) { return o.entry < n; });
  if (first == all.end() || first->entry != entry) {
    refuse("nothing was cut off at entry {}; name the entry of the join that left the offcut (log --offcuts)", entry);
  }
  const bool two = std::next(first) != all.end() && std::next(first)->entry == entry;
  if (two && !cut_from) {
    refuse("two pieces were cut off at entry {}; say which with {} old or {} new", entry,
           entry_ == just_told_ ? "--cut-from" : "cut_from:", entry_ == just_told_ ? "--cut-from" : "cut_from:");
  }
  const auto meant = two && first->cut_from != *cut_from ? std::next(first) : first;
  if (cut_from && meant->cut_from != *cut_from) {
    refuse("nothing was cut off the {} end at entry {}; leave out {}", cut_from_name(*cut_from), entry,
           named("cut_from"));
  }
  if (meant->use == OffcutUse::as_ball) {
    const auto ball = std::lower_bound(state_.balls.begin(), state_.balls.end(), meant->used_at,
                                       [](const BallState& b, int n) { return b.entry < n; });
    refuse("{} is {} already, since entry {}", cut_off_at(*meant),
           who(static_cast<std::size_t>(ball - state_.balls.begin())), meant->used_at);
  }
  if (meant->use == OffcutUse::used_up) refuse("{} is used up, by entry {}", cut_off_at(*meant), meant->used_at);
  return static_cast<std::size_t>(meant - all.begin());
}

void Folding::use_offcut(std::size_t offcut, OffcutUse use, Length length) {
  OffcutState& used = state_.offcuts[offcut];
  used.use = use;
  used.used_at = entry_;
  used.used = length;
}

// The ball is that piece of another. A length that was told is what was kept of it; which end went is then not known.
void Folding::be_offcut(BallState& ball, const did::Ball& entry) {
  if (!entry.offcut) {
    refuse("{} says which end an offcut was cut off; write {} too", named("cut_from"), named("offcut"));
  }
  if (entry.mass || entry.plain) {
    refuse("an offcut holds what was cut off, of the same yarn; leave out {} and {}", named("mass"), named("plain"));
  }
  const std::size_t index = kept_offcut(*entry.offcut, entry.cut_from);
  const OffcutState& offcut = state_.offcuts[index];
  ball.length = entry.length ? length(entry.length, "length") : offcut.length;
  if (*ball.length > offcut.length + kHair) {
    refuse("{} is longer than {}; leave it out, or tell what was kept of it", named("length"), cut_off_at(offcut));
  }
  ball.length = std::min(*ball.length, offcut.length);
  ball.offcut = index;
  ball.outside_as_cut = ball.inside_as_cut = *ball.length > offcut.length - kHair;
  if (!ball.dye_lot && offcut.ball) ball.dye_lot = state_.balls[*offcut.ball].dye_lot;
  use_offcut(index, OffcutUse::as_ball, *ball.length);
}

void Folding::apply(const did::Note& entry) {
  if (!entry.offcut && !entry.cut_from) return;
  if (!entry.offcut) {
    refuse("{} says which end an offcut was cut off; write {} too", named("cut_from"), named("offcut"));
  }
  const std::size_t offcut = kept_offcut(*entry.offcut, entry.cut_from);
  use_offcut(offcut, OffcutUse::used_up, state_.offcuts[offcut].length);
}

}  // namespace ballchange
