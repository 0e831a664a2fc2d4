#pragma once
#include "match/ahead.hpp"

// What would settle a reading that does not: a question, or measuring further.
namespace ballchange::matching {

// One candidate with the likeliest way its reading came to be.
struct ExplainedCandidate {
  Candidate candidate;
  std::vector<Explained> why;
};

// The question whose answer leaves the best candidate likeliest, on average over the answers; nothing when none helps.
[[nodiscard]] std::optional<Question> best_question(const Model& model, const Observed& observed,
                                                    const MatchOptions& options, const std::vector<OpenState>& states,
                                                    const std::vector<ExplainedCandidate>& candidates);

// How much further the strand must be measured so that four in five readings settle; nothing when two repeats more
// would not do, or none was found to within `most` steps of the matcher's. Simulated with a fixed seed.
[[nodiscard]] std::optional<Length> how_much_further(Matcher& matcher, const Reading& reading, const Observed& observed,
                                                     const MatchOptions& options, const std::vector<OpenState>& states,
                                                     std::uint64_t most);

}  // namespace ballchange::matching
