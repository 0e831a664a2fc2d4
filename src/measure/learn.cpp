#include "measure/learn.hpp"

#include <algorithm>
#include <cmath>

#include "measure/propose.hpp"
#include "measure/weigh.hpp"

namespace ballchange {

using namespace measuring;

namespace {

constexpr std::size_t most_proposals = 6;
constexpr double worth_listing = 0.01;

std::vector<matching::Observed> observed_of(const std::vector<Reading>& strands, const MatchOptions& match) {
  std::vector<matching::Observed> all;
  for (const Reading& strand : strands) {
    matching::Observed observed;
    matching::observe(strand, match, observed);
    if (observed.sees_a_change()) all.push_back(std::move(observed));
  }
  return all;
}

// An entry under another name may as well be of a section that was passed over everywhere else.
std::vector<Circle> with_slips_believed(const Weighed& weighed) {
  std::vector<Circle> all;
  for (const Slip& slip : weighed.slips) {
    for (const std::size_t at : {slip.section, slip.section + 1}) {
      Circle circle = weighed.circle;
      const double usual = std::min(4.0, slip.length > 0 ? slip.length : 4.0);
      circle.insert(circle.begin() + static_cast<std::ptrdiff_t>(at), Patch{slip.written, usual, 0});
      if (closes(circle)) all.push_back(std::move(circle));
    }
  }
  return all;
}

LearntRepeat told(const Weighed& weighed, const Lore& lore, double chance) {
  Circle circle = weighed.circle;
  LearntRepeat result{yarn_of(circle, lore, 0).repeat, {}, chance};
  for (const Seen& seen : weighed.seen) result.times.push_back(seen.times);
  return result;
}

}  // namespace

Learnt learn(const std::vector<Reading>& strands, const std::vector<Colour>& palette, const LearnOptions& options) {
  const Lore lore(palette, options.reckoning);
  const std::vector<matching::Observed> observed = observed_of(strands, options.match);
  Learnt learnt;
  if (observed.empty()) return learnt;
  Scales scales(lore, observed, options.match, options.ball_plus_minus);
  std::vector<Weighed> weighed;
  for (const matching::Observed& strand : observed) {
    for (Proposal& proposal : propose(line_of(strand), lore, most_proposals)) {
      std::optional<Weighed> one = scales.weigh(std::move(proposal.circle), {});
      if (one) weighed.push_back(std::move(*one));
    }
  }
  const std::size_t proposed = weighed.size();
  for (std::size_t n = 0; n < proposed; ++n) {
    for (Circle& circle : with_slips_believed(weighed[n])) {
      std::optional<Weighed> one = scales.weigh(std::move(circle), {});
      if (one) weighed.push_back(std::move(*one));
    }
  }
  std::stable_sort(weighed.begin(), weighed.end(),
                   [](const Weighed& a, const Weighed& b) { return a.evidence > b.evidence; });
  if (weighed.empty()) return learnt;
  std::vector<Weighed> distinct;
  for (Weighed& one : weighed) {
    const bool known = std::any_of(distinct.begin(), distinct.end(), [&](const Weighed& other) {
      return same_sections(other.circle, one.circle);
    });
    if (!known) distinct.push_back(std::move(one));
  }
  weighed = std::move(distinct);
  const double nothing = scales.nothing_recurs();
  double sum = std::exp(std::min(0.0, nothing - weighed.front().evidence));
  for (const Weighed& one : weighed) sum += std::exp(one.evidence - weighed.front().evidence);
  for (const Weighed& one : weighed) {
    const double chance = std::exp(one.evidence - weighed.front().evidence) / sum;
    if (chance > worth_listing || learnt.repeats.empty()) learnt.repeats.push_back(told(one, lore, chance));
  }
  learnt.verdict = learnt.best().chance >= options.match.sure ? LearnVerdict::found : LearnVerdict::unsure;
  return learnt;
}

}  // namespace ballchange
