#include "join/split.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "base/normal.hpp"
#include "join/long_sections.hpp"

namespace ballchange::joining {
namespace {

constexpr std::size_t most_splits = 5;
constexpr double stitch_spread = 0.03;  // how evenly a hand works, a share of the stitches
constexpr double same_variance = 1e-9;
constexpr Length off_the_change = 0.01_cm;  // a middle right on a change would belong to the next section

// One section the join's middle may lie in, as old trims: x from `low` to `high`, the overlap inside from `in_low` to
// `in_high`.
struct Window {
  Length low, high, in_low, in_high;
};

class Ranking {
 public:
  Ranking(const Bench& bench, const Walk& old_walk, const Walk& new_walk, Length old_place, Length trims,
          Length allowance, Length most_old)
      : bench_(bench),
        old_walk_(old_walk),
        new_walk_(new_walk),
        old_place_(old_place),
        trims_(trims),
        allowance_(allowance),
        most_old_(most_old) {}

  [[nodiscard]] std::vector<Split> all() const {
    std::vector<Split> found;
    for (const Window& window : windows()) {
      std::optional<Split> best;
      for (const Length x : offers(window)) {
        Split split = at(x);
        if (!best || better(split, *best)) best = std::move(split);
      }
      if (best) found.push_back(std::move(*best));
    }
    std::stable_sort(found.begin(), found.end(), [&](const Split& a, const Split& b) { return better(a, b); });
    std::vector<Split> told;
    for (Split& split : found) {
      const auto same = [&](const Split& other) { return alike(split, other); };
      if (told.size() < most_splits && std::none_of(told.begin(), told.end(), same)) told.push_back(std::move(split));
    }
    return told;
  }

 private:
  // On either side of a change, but a tape shows no difference.
  [[nodiscard]] bool alike(const Split& a, const Split& b) const {
    return abs(a.trim_old - b.trim_old) < bench_.habits.tape_fixed;
  }

  [[nodiscard]] std::vector<Window> windows() const {
    std::vector<Window> result;
    Length x;
    const Length half = allowance_ / 2;
    // The middle moves back along the strand as more comes off the old end.
    std::size_t section = bench_.repeat.spot(old_place_ - half).section;
    Length above = bench_.repeat.spot(old_place_ - half).into;  // from this section's start up to the middle at `x`
    for (;;) {
      const Section& here = bench_.repeat.sections()[section];
      const Length length = here.length;
      const Length margin = clear_of_changes(here, bench_.habits);
      // Nothing off the old end is always tried.
      Window window{result.empty() ? x : x + off_the_change, most_old_, {}, {}};
      if (x + above < most_old_) window.high = std::max(Length(), x + above - off_the_change);
      window.in_low = x + above - (length - margin - half);
      window.in_high = x + above - (margin + half);
      result.push_back(window);
      x += above;
      if (x >= most_old_ || result.size() > bench_.repeat.size()) return result;
      section = section == 0 ? bench_.repeat.size() - 1 : section - 1;
      above = bench_.repeat.sections()[section].length;
    }
  }

  // Old trims worth trying within one section.
  [[nodiscard]] std::vector<Length> offers(const Window& window) const {
    std::vector<Length> found{window.low, (window.low + window.high) / 2, window.in_low, window.in_high, window.high};
    found.push_back(trims_);                                // the new end left uncut
    found.push_back((window.in_low + window.in_high) / 2);  // both marks as short as they can be
    found.push_back(bench_.least_old);
    if (bench_.loose && bench_.fabric.yarn_per_stitch && bench_.fabric.stitches && bench_.hook)
      add_edges(window, found);
    if (bench_.whole_stitches) {
      for (Length& x : found) x = on_a_stitch(x);
    }
    const Length low = std::max(window.low, bench_.least_old);
    std::erase_if(found, [&](Length x) { return x < low || x > window.high || takes_a_crumb(x); });
    return found;
  }

  // The mark on the old end is told in whole stitches: moved there, so that both marks add up. All of it off one end
  // stays so.
  [[nodiscard]] Length on_a_stitch(Length x) const {
    if (x <= hardly || x >= trims_ - hardly) return x;
    const Mark mark = old_walk_.cut(x, bench_.tape).mark;
    const Length over = mark.distance - Length::cm(std::round(mark.distance.cm()));
    return mark.from == MarkFrom::loose_end ? x - over : x + over;
  }

  // A second cut, for less than is worth one, where the other end can give it all.
  [[nodiscard]] bool takes_a_crumb(Length x) const {
    const Length y = trims_ - x;
    const Length least = bench_.habits.least_trim;
    if (x <= hardly || y <= hardly) return false;
    return x < least || (y < least && trims_ <= most_old_ + hardly);
  }

  void add_edges(const Window& window, std::vector<Length>& found) const {
    const Length stitch = *bench_.fabric.yarn_per_stitch;
    const Length row = *bench_.fabric.stitches * stitch + bench_.fabric.yarn_per_turn;
    Length to_edge = (*bench_.fabric.stitches - bench_.hook->stitch) * stitch + bench_.fabric.yarn_per_turn / 2;
    const Length reach = *bench_.loose - allowance_ / 2;
    const Length least = old_walk_.cut(window.low, bench_.tape).trim;
    const Length most = old_walk_.cut(window.high, bench_.tape).trim;
    for (; reach - to_edge >= least; to_edge += row) {
      if (reach - to_edge <= most) found.push_back(old_walk_.gone(reach - to_edge));
    }
  }

  [[nodiscard]] Split at(Length x) const {
    Split split;
    split.trim_old = x;
    split.trim_new = trims_ - x;
    split.old_cut = old_walk_.cut(x, bench_.tape);
    split.new_cut = new_walk_.cut(split.trim_new, bench_.tape);
    const Length half = allowance_ / 2;
    split.middle = wrap(old_place_ - x - half, bench_.repeat.total());
    const Spot spot = bench_.repeat.spot(split.middle);
    const Length margin = clear_of_changes(bench_.repeat.sections()[spot.section], bench_.habits);
    split.inside = spot.into >= half + margin - 0.001_cm && spot.left >= half + margin - 0.001_cm;
    if (bench_.loose) {
      // By the strand in hand, as the cut is marked: `x` counts on the repeat.
      split.to_join = std::max(Length(), *bench_.loose - split.old_cut.trim - half);
      if (bench_.hook && bench_.fabric.yarn_per_stitch) {
        split.lands = landing(bench_.fabric, *bench_.hook, *split.to_join);
        split.at_edge = near_edge(*split.lands);
      }
    }
    return split;
  }

  [[nodiscard]] bool near_edge(const RowStitch& where) const {
    if (!bench_.fabric.stitches || bench_.fabric.working == Working::rounds) return false;
    const int overlap = static_cast<int>(std::ceil(allowance_ / 2 / *bench_.fabric.yarn_per_stitch));
    const int near = std::max(2, bench_.edge == Edge::seek ? 2 : overlap + 1);
    return where.stitch <= near || where.stitch > *bench_.fabric.stitches - near;
  }

  [[nodiscard]] bool edge_wish(const Split& split) const {
    if (bench_.edge == Edge::any || !split.lands) return true;
    return split.at_edge == (bench_.edge == Edge::seek);
  }

  [[nodiscard]] bool better(const Split& a, const Split& b) const {
    const auto both_markable = [](const Split& s) { return s.old_cut.markable && s.new_cut.markable; };
    if (both_markable(a) != both_markable(b)) return both_markable(a);
    if (a.inside != b.inside) return a.inside;
    if (edge_wish(a) != edge_wish(b)) return edge_wish(a);
    const bool a_uncut = a.trim_old == Length();
    const bool b_uncut = b.trim_old == Length();
    if (a_uncut != b_uncut) return a_uncut;
    const double a_variance = a.old_cut.variance + a.new_cut.variance;
    const double b_variance = b.old_cut.variance + b.new_cut.variance;
    if (std::abs(a_variance - b_variance) > same_variance) return a_variance < b_variance;
    return a.trim_old < b.trim_old;
  }

  const Bench& bench_;
  const Walk& old_walk_;
  const Walk& new_walk_;
  Length old_place_, trims_, allowance_, most_old_;
};

}  // namespace

std::vector<Split> rank_splits(const Bench& bench, const Walk& old_walk, const Walk& new_walk, Length old_place,
                               Length trims, Length allowance, Length most_old) {
  return Ranking(bench, old_walk, new_walk, old_place, trims, allowance, most_old).all();
}

int give_or_take(const Fabric& fabric, const Tape& tape, Length to_join) {
  const double stitches = to_join / *fabric.yarn_per_stitch;
  const double error = (tape.fixed + tape.share * to_join) / *fabric.yarn_per_stitch;
  return std::max(1, static_cast<int>(std::ceil(normal_quantile(0.95) * std::hypot(error, stitch_spread * stitches))));
}

std::optional<int> section_stitches(const Fabric& fabric, std::optional<RowStitch> hook, std::optional<Length> begins,
                                    Length length) {
  if (!fabric.yarn_per_stitch) return std::nullopt;
  const Length stitch = *fabric.yarn_per_stitch;
  if (!fabric.stitches || !hook || !begins) return static_cast<int>(std::lround(length / stitch));
  return static_cast<int>(std::lround(stitches_made(fabric, hook->stitch * stitch + *begins, length)));
}

}  // namespace ballchange::joining
