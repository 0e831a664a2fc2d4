#include "project/offers.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "console/join_options.hpp"
#include "project/balls.hpp"
#include "project/off_record.hpp"
#include "reading/fault.hpp"
#include "show/entry_text.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

std::string end_of(const BallState& ball) {
  return fmt::format("ball {}, {} end", printable(ball.id, 60), end_name(ball.from));
}

// A file edited by hand may hold what is no reading: that ball is left out, and the file's troubles tell it.
std::optional<Reading> readable(ProjectAdvice& advised, const Project& project, const BallState& ball) {
  try {
    return reading_on_record(advised, project, ball);
  } catch (const Problem& problem) {
    const Ruler ruler = ruler_on_record(advised.terms.measures.ruler, project);
    if (!reading_fault(*ball.first_reading(), End::new_end, advised.yarn.repeat.colours(), ruler, {})) {
      advised.terms.notes.emplace_back(problem.what());
    }
    return std::nullopt;
  }
}

// Nothing where only the old end keeps it from being told: `old_in_doubt`, it may have been written from the wrong
// side.
std::optional<BallNotRanked::Why> why_not_ranked(const Offer& offer, bool old_in_doubt) {
  const Placing& placing = offer.strand.placing;
  if (placing.verdict == Verdict::no_fit) return BallNotRanked::Why::no_fit;
  if (placing.verdict == Verdict::unsettled) return BallNotRanked::Why::unsettled;
  if (offer.advice.verdict == JoinVerdict::turn_ball && !old_in_doubt) return BallNotRanked::Why::turned;
  if (placing.ask) return BallNotRanked::Why::unsettled;
  return std::nullopt;
}

// The end that was typed, of a ball nobody named, may be that one, read again.
bool may_be_in_hand(const ProjectAdvice& advised, const Offer& offer) {
  if (!advised.on_record.ball.empty()) return false;
  return may_be_one_end(advised.new_strand.placing, offer.strand.placing, advised.yarn.repeat.total()) == true;
}

}  // namespace

MatchOptions match_for(const Options& options, const MatchOptions& told, const BallState* ball, End end) {
  MatchOptions match = ball == nullptr ? told : expected(told, *ball, ball->from);
  if (options.has("from")) match.worked = told.worked;
  if (options.has("wound")) match.wound = told.wound;
  if (end == End::new_end) {
    match.worked = new_from(options, match.worked);
  }
  return match;
}

Reading reading_on_record(const ProjectAdvice& advised, const Project& project, const BallState& ball) {
  Palette palette{advised.yarn.repeat.colours(), false};
  const Ruler ruler = ruler_on_record(advised.terms.measures.ruler, project);
  return parse_reading(*ball.first_reading(), End::new_end, palette, ruler, end_of(ball));
}

Advice advice_for(const ProjectAdvice& advised, const Strand& new_strand) {
  const ProjectTerms& terms = advised.terms;
  return advise(advised.yarn, advised.old_strand, new_strand, terms.fabric, terms.hook, terms.wish);
}

std::vector<Offer> offers_of(ProjectAdvice& advised, const Project& project, const State& state,
                             const Options& options) {
  Matcher matcher(advised.yarn);
  std::vector<Offer> offers;
  for (const BallState* ball : fresh_balls(state)) {
    auto reading = ball->first_reading() ? readable(advised, project, *ball) : std::nullopt;
    if (!reading) continue;
    Placing placing = matcher.match(*reading, match_for(options, advised.terms.match, ball, End::new_end));
    Strand strand{std::move(*reading), std::move(placing)};
    Advice advice = advice_for(advised, strand);
    offers.push_back({ball, std::move(strand), std::move(advice)});
  }
  std::stable_sort(offers.begin(), offers.end(), [](const Offer& a, const Offer& b) {
    if (a.cut() != b.cut()) return a.cut();
    return a.cut() && a.cost() < b.cost();
  });
  return offers;
}

void hold_against_its_reading(ProjectAdvice& advised, const std::vector<Offer>& offers) {
  for (const Offer& offer : offers) {
    if (offer.ball->id != advised.on_record.ball) continue;
    const auto one_end = may_be_one_end(offer.strand.placing, advised.new_strand.placing, advised.yarn.repeat.total());
    if (one_end != false) return;
    advised.on_record.read_otherwise = OtherEnd{offer.ball->id, offer.ball->from, *offer.ball->first_reading()};
  }
}

void tell_not_ranked(ProjectAdvice& advised, const State& state, const std::vector<Offer>& offers) {
  const bool old_in_doubt = seems_turned(advised.old_strand.placing);
  for (const BallState* ball : fresh_balls(state)) {
    if (ball->id == advised.on_record.ball) continue;
    const auto offer = std::find_if(offers.begin(), offers.end(), [&](const Offer& o) { return o.ball == ball; });
    const bool offered = offer != offers.end();
    if (offered && offer->cut()) continue;
    // What stands on record but is no reading has its own note.
    if (!offered && ball->first_reading()) continue;
    const auto why = offered ? why_not_ranked(*offer, old_in_doubt) : BallNotRanked::Why::unread;
    if (why) advised.on_record.not_ranked.push_back({ball->id, ball->from, *why});
  }
}

void rank_others(ProjectAdvice& advised, std::vector<Offer> offers) {
  for (Offer& offer : offers) {
    if (!offer.cut() || offer.ball->id == advised.on_record.ball || may_be_in_hand(advised, offer)) continue;
    advised.on_record.others.push_back({offer.ball->id, offer.cost()});
    advised.others.push_back({offer.ball->id, std::move(offer.strand), std::move(offer.advice)});
  }
}

}  // namespace ballchange
