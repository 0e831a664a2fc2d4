#include "measure/doubts.hpp"

#include <algorithm>
#include <cmath>

namespace ballchange::measuring {
namespace {

bool has_first(const std::vector<std::size_t>& strands) { return !strands.empty() && strands.front() == 0; }

}  // namespace

double merge_mirror(std::vector<Weighed>& weighed) {
  constexpr double worth_a_word = 0.01;
  if (weighed.size() < 2) return 0;
  Weighed& best = weighed.front();
  Circle mirror = best.circle;
  std::reverse(mirror.begin(), mirror.end());
  const auto twin = std::find_if(weighed.begin() + 1, weighed.end(),
                                 [&](const Weighed& other) { return same_sections(other.circle, mirror); });
  if (twin == weighed.end() || has_first(twin->backward) == has_first(best.backward)) return 0;
  const double less = std::exp(twin->evidence - best.evidence);
  if (less < worth_a_word) return 0;
  const double both = best.evidence + std::log1p(less);
  if (has_first(best.backward)) std::swap(best, *twin);
  best.evidence = both;
  weighed.erase(twin);
  return less / (1 + less);
}

void tell_doubts(Learnt& learnt, const Weighed& best, const std::vector<MatchOptions>& match,
                 std::size_t known_colours) {
  for (const std::size_t strand : best.backward) {
    const bool expected = match[strand].worked == Worked::other_end || match[strand].wound == Wound::hand;
    if (!expected) learnt.other_way.push_back(strand);
  }
  for (const Slip& slip : best.slips) {
    learnt.taken.push_back({slip.strand, slip.entry, slip.written, best.circle[slip.section].colour});
  }
  if (learnt.verdict != LearnVerdict::found || known_colours == 0) return;
  const auto known = [&](const TakenAs& one) { return one.written < known_colours; };
  if (std::all_of(learnt.taken.begin(), learnt.taken.end(), known)) return;
  learnt.verdict = LearnVerdict::unknown_colour;
  learnt.taken.erase(std::remove_if(learnt.taken.begin(), learnt.taken.end(), known), learnt.taken.end());
}

}  // namespace ballchange::measuring
