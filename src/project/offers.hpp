#pragma once
#include <vector>

#include "project/advise_project.hpp"

// The fresh balls whose ends are on record, held against the old end.
namespace ballchange {

// An end on record, and what joining it would cost.
struct Offer {
  const BallState* ball;
  Strand strand;
  Advice advice;
  [[nodiscard]] bool cut() const { return advice.verdict == JoinVerdict::cut; }
  [[nodiscard]] Length cost() const { return *advice.joins.front().discard; }
};

// What options say of the ball's run goes before what is on record.
[[nodiscard]] MatchOptions match_for(const Options& options, const MatchOptions& told, const BallState* ball, End end);
// The end that a ball is worked from, as it is on record. Throws Problem(content) for what is no reading.
[[nodiscard]] Reading reading_on_record(const ProjectAdvice& advised, const Project& project, const BallState& ball);
// What joining that strand to the old one asks for.
[[nodiscard]] Advice advice_for(const ProjectAdvice& advised, const Strand& new_strand);

// Of the fresh balls those that can be joined now, cheapest first, then the others; as added where nothing tells them
// apart.
[[nodiscard]] std::vector<Offer> offers_of(ProjectAdvice& advised, const Project& project, const State& state,
                                           const Options& options);

// The fresh ball's end was read before, and lies elsewhere than it was read now.
void hold_against_its_reading(ProjectAdvice& advised, const std::vector<Offer>& offers);
// The fresh balls that can't be joined now, and why.
void tell_not_ranked(ProjectAdvice& advised, const State& state, const std::vector<Offer>& offers);
// Those that can, but for the one in hand.
void rank_others(ProjectAdvice& advised, std::vector<Offer> offers);

}  // namespace ballchange
