#include "offcut/kept.hpp"

#include <algorithm>

#include "base/problem.hpp"

namespace ballchange::offcuts {
namespace {

constexpr Length kHair = Length::cm(1e-3);

// By its own reading. A file edited by hand may hold what is no reading.
std::optional<Offcut> placed_by_reading(const State& state, const Ruler& written, const OffcutState& offcut) {
  if (!offcut.reading) return std::nullopt;
  const Yarn& yarn = state.yarn;
  Palette palette{yarn.repeat.colours(), false};
  MatchOptions match;
  if (offcut.ball && state.balls[*offcut.ball].wound == Winding::hand) match.wound = Wound::hand;
  try {
    Strand strand;
    strand.reading = parse_reading(*offcut.reading, offcut.cut_from, palette, written, "offcut");
    strand.placing = Matcher(yarn).match(strand.reading, match);
    if (strand.placing.verdict != Verdict::settled) return std::nullopt;
    return off_end(yarn.repeat, strand, offcut.length);
  } catch (const Problem&) {
    return std::nullopt;
  }
}

// As its ball is worked.
Offcut as_worked(const State& state, const Offcut& whole, const BallState& ball) {
  return ball.from == BallEnd::outside ? whole : turned(state.yarn.repeat, whole);
}

}  // namespace

Length least_to_sew(Reckoning reckoning) { return reckoning == Reckoning::stitches ? 20_cm : 40_cm; }

// Cut off one after the other: the first of them was read.
std::optional<Offcut> placed(const State& state, const Ruler& written, std::size_t offcut) {
  std::vector<std::size_t> chain{offcut};
  while (const auto of = state.offcuts[chain.back()].of) chain.push_back(*of);
  if (std::any_of(chain.begin(), chain.end(), [&](std::size_t k) { return state.offcuts[k].holds_join; })) {
    return std::nullopt;
  }
  std::optional<Offcut> found = placed_by_reading(state, written, state.offcuts[chain.back()]);
  for (std::size_t k = chain.size() - 1; found && k > 0; --k) {
    const OffcutState& next = state.offcuts[chain[k - 1]];
    const Offcut whole = as_worked(state, *found, state.balls[*next.ball]);
    const Length length = whole.length();
    if (next.length > length + kHair) return std::nullopt;
    const Length off = std::min(next.length, length);
    found = next.cut_from == End::new_end ? part_of(state.yarn.repeat, whole, Length(), off)
                                          : part_of(state.yarn.repeat, whole, length - off, length);
  }
  return found;
}

std::optional<Offcut> placed(const State& state, const Ruler& written, const BallState& ball) {
  if (!ball.offcut || !ball.first_as_cut() || !ball.other_as_cut()) return std::nullopt;
  const auto whole = placed(state, written, *ball.offcut);
  return whole ? std::optional(as_worked(state, *whole, ball)) : std::nullopt;
}

std::optional<Strand> last_end(const State& state, const Ruler& written, const BallState& ball) {
  if (!ball.offcut || !ball.other_as_cut()) return std::nullopt;
  const auto whole = placed(state, written, *ball.offcut);
  if (!whole) return std::nullopt;
  return end_of(state.yarn.repeat, as_worked(state, *whole, ball), End::old_end);
}

std::vector<Kept> kept(const State& state, const Ruler& written, const LongEnough& enough) {
  std::vector<Kept> found;
  for (std::size_t k = state.offcuts.size(); k > 0 && found.size() < kMostKept; --k) {
    const OffcutState& offcut = state.offcuts[k - 1];
    if (offcut.use != OffcutUse::kept || !enough.to_keep(offcut.length)) continue;
    found.push_back({k - 1, placed(state, written, k - 1)});
  }
  std::reverse(found.begin(), found.end());
  return found;
}

std::vector<Sewing> to_sew(const std::vector<Kept>& kept, Length least) {
  std::vector<Sewing> found;
  for (const Kept& one : kept) {
    if (!one.placed) continue;
    std::vector<Sewing> here;
    for (const Stretch& stretch : one.placed->stretches) {
      if (stretch.length < least) continue;
      const auto same =
          std::find_if(here.begin(), here.end(), [&](const Sewing& s) { return s.colour == stretch.colour; });
      if (same == here.end()) {
        here.push_back({stretch.colour, stretch.length, one.offcut});
      } else {
        same->length = std::max(same->length, stretch.length);
      }
    }
    found.insert(found.end(), here.begin(), here.end());
  }
  std::stable_sort(found.begin(), found.end(), [](const Sewing& a, const Sewing& b) {
    return a.colour != b.colour ? a.colour < b.colour : a.length > b.length;
  });
  return found;
}

}  // namespace ballchange::offcuts
