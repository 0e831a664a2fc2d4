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

class Bridging {
 public:
  Bridging(const OpenProject& open, const ProjectAdvice& advised) : open_(open), advised_(advised) {}

  void try_offcut(const OffcutState& offcut, const offcuts::Offcut& placed, const std::string& ball) {
    const ProjectTerms& terms = advised_.terms;
    const auto bridge = offcuts::bridge(advised_.yarn, advised_.old_strand, placed, advised_.new_strand, terms.fabric,
                                        terms.hook, terms.wish, advised_.advice.joins.front());
    if (!bridge || (best_ && bridge->saves <= best_->bridge.saves)) return;
    // As a ball it is worked from the end that was told.
    if (bridge->other_end && !ball.empty()) return;
    best_ = BridgeShown{open_.path, offcut.entry, std::nullopt, ball, placed.length(), *bridge};
    if (of_two(open_.state, offcut)) best_->cut_from = offcut.cut_from;
  }
  [[nodiscard]] std::optional<BridgeShown> best() const { return best_; }

 private:
  const OpenProject& open_;
  const ProjectAdvice& advised_;
  std::optional<BridgeShown> best_;
};

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
  const State& state = open.state;
  const Advice& advice = advised.advice;
  if (advice.verdict != JoinVerdict::cut || advised.terms.wish.knot || advised.new_strand.cut_short)
    return std::nullopt;
  const Ruler written = ruler_on_record(state.ruler, open.project);
  const offcuts::LongEnough enough{offcuts::least_between(advice.allowance, room_of(advised.terms, state)),
                                   kLongestBall};
  Bridging bridging(open, advised);
  for (const offcuts::Kept& one : offcuts::kept(state, written, enough)) {
    if (one.placed) bridging.try_offcut(state.offcuts[one.offcut], *one.placed, {});
  }
  for (const BallState& ball : state.balls) {
    if (!ball.offcut || ball.use != BallUse::fresh || ball.id == advised.on_record.ball) continue;
    const auto placed = offcuts::placed(state, written, ball);
    if (placed) bridging.try_offcut(state.offcuts[*ball.offcut], *placed, ball.id);
  }
  return bridging.best();
}

}  // namespace ballchange
