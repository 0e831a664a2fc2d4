#include "project/offcuts.hpp"

#include <algorithm>

#include "join/choice.hpp"
#include "offcut/bridge.hpp"

namespace ballchange {
namespace {

Length room_of(const ProjectTerms& terms, const State& state) {
  return terms.wish.room.value_or(habits(state.yarn.reckoning).room);
}

// Where the project tells of a join that can't be made, nothing is long enough for one.
offcuts::LongEnough long_enough(const OpenProject& open, const Options& options) {
  const State& state = open.state;
  offcuts::LongEnough enough{std::nullopt, offcuts::least_to_sew(state.yarn.reckoning)};
  const ProjectTerms terms = terms_of(options, open.project, state);
  try {
    const joining::Terms join =
        joining::terms_in_force(terms.wish, terms.fabric, state.yarn.reckoning, state.yarn.felts);
    enough.bridging = offcuts::least_between(join.allowance, room_of(terms, state));
  } catch (const Lacking&) {
    return enough;
  }
  return enough;
}

bool of_two(const State& state, const OffcutState& offcut) {
  return std::count_if(state.offcuts.begin(), state.offcuts.end(),
                       [&](const OffcutState& other) { return other.entry == offcut.entry; }) > 1;
}

// Of so many other balls, those that cost least now, it is tried whether an offcut fits before them.
constexpr std::size_t kMostOthers = 12;

// The best offcut between the old end and one new end.
class Bridging {
 public:
  Bridging(const OpenProject& open, const ProjectAdvice& advised, const Strand& new_strand, const Join& direct)
      : open_(open), advised_(advised), new_strand_(new_strand), direct_(direct) {}

  void try_offcut(const OffcutState& offcut, const offcuts::Offcut& placed, const std::string& ball) {
    const ProjectTerms& terms = advised_.terms;
    const auto bridge = offcuts::bridge(advised_.yarn, advised_.old_strand, placed, new_strand_, terms.fabric,
                                        terms.hook, terms.wish, direct_);
    if (!bridge || (best_ && bridge->saves <= best_->bridge.saves)) return;
    // As a ball it is worked from the end that was told.
    if (bridge->other_end && !ball.empty()) return;
    best_ = BridgeShown{open_.path, offcut.entry, std::nullopt, ball, placed.length(), {}, bridge->saves, *bridge};
    if (of_two(open_.state, offcut)) best_->cut_from = offcut.cut_from;
  }
  [[nodiscard]] std::optional<BridgeShown> best() const { return best_; }

 private:
  const OpenProject& open_;
  const ProjectAdvice& advised_;
  const Strand& new_strand_;
  const Join& direct_;
  std::optional<BridgeShown> best_;
};

// What is at hand to bridge with: pieces, and balls made of them.
struct AtHand {
  const OffcutState* offcut;
  offcuts::Offcut placed;
  std::string ball;
};
std::vector<AtHand> at_hand(const OpenProject& open, const ProjectAdvice& advised) {
  const State& state = open.state;
  const Ruler written = ruler_on_record(state.ruler, open.project);
  const offcuts::LongEnough enough{offcuts::least_between(advised.advice.allowance, room_of(advised.terms, state)),
                                   kLongestBall};
  std::vector<AtHand> all;
  for (const offcuts::Kept& one : offcuts::kept(state, written, enough)) {
    if (one.placed) all.push_back({&state.offcuts[one.offcut], *one.placed, {}});
  }
  for (const BallState& ball : state.balls) {
    if (!ball.offcut || ball.use != BallUse::fresh || ball.id == advised.on_record.ball) continue;
    if (const auto placed = offcuts::placed(state, written, ball)) {
      all.push_back({&state.offcuts[*ball.offcut], *placed, ball.id});
    }
  }
  return all;
}

Length taken(const Join& join) { return *join.discard + join.allowance; }

}  // namespace

std::optional<End> cut_from_option(const Options& options) {
  if (!options.has("cut-from")) return std::nullopt;
  return choice(options, "cut-from", End::new_end, {{"old", End::old_end}, {"new", End::new_end}});
}

OffcutsShown offcuts_in(const OpenProject& open, const Options& options, const BallState* ball) {
  OffcutsShown shown{open.state, open.path, long_enough(open, options), {}};
  shown.kept = offcuts::kept(open.state, ruler_on_record(open.state.ruler, open.project), shown.enough);
  if (ball == nullptr) return shown;
  std::erase_if(shown.kept, [&](const offcuts::Kept& one) {
    const auto& of = open.state.offcuts[one.offcut].ball;
    return !of || &open.state.balls[*of] != ball;
  });
  return shown;
}

std::optional<BridgeShown> bridge_in(const OpenProject& open, const ProjectAdvice& advised) {
  const Advice& advice = advised.advice;
  if (advice.verdict != JoinVerdict::cut || advised.terms.wish.knot || advised.new_strand.cut_short)
    return std::nullopt;
  const std::vector<AtHand> pieces = at_hand(open, advised);
  const auto best_to = [&](const Strand& new_strand, const Join& direct) {
    Bridging bridging(open, advised, new_strand, direct);
    for (const AtHand& piece : pieces) bridging.try_offcut(*piece.offcut, piece.placed, piece.ball);
    return bridging.best();
  };
  std::optional<BridgeShown> best = best_to(advised.new_strand, advice.joins.front());
  const Length direct = taken(advice.joins.front());
  const Length without = direct - (best ? best->saves : Length());
  // Another ball is worth a second thought for what any other way is.
  Length least = without - habits(advised.yarn.reckoning).worth_telling;
  for (std::size_t k = 0; k < std::min(advised.others.size(), kMostOthers); ++k) {
    const OtherBall& other = advised.others[k];
    auto bridge = best_to(other.strand, other.advice.joins.front());
    if (!bridge || bridge->bridge.discard + bridge->bridge.allowance > least) continue;
    least = bridge->bridge.discard + bridge->bridge.allowance;
    bridge->before = other.ball;
    bridge->saves = without - least;
    best = std::move(bridge);
  }
  return best;
}

}  // namespace ballchange
