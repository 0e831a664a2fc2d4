#include "match/settle.hpp"

#include <algorithm>

namespace ballchange {

using namespace matching;

Placing place_reading(const Yarn& yarn, const Reading& reading, const MatchOptions& options) {
  Matcher matcher(yarn);
  Placing placing = matcher.match(reading, options);
  if (placing.verdict == Verdict::no_fit) {
    Explained in_the_way;
    in_the_way.entry = matcher.in_the_way(options);
    placing.why = {in_the_way};
  }
  if (placing.verdict != Verdict::unsettled) return placing;
  if (placing.ask && placing.ask->kind == Question::Kind::first_length) return placing;

  const Model& model = matcher.model();
  // Every place comes to the same but the tape is too coarse to tell even that: nothing more that is read would help.
  if (!placing.ask && placing.sureness >= options.sure) return placing;
  Observed observed;
  observe(reading, options, observed);
  Posterior posterior(model);
  const std::vector<OpenState> states = open_states(model, observed, options, posterior);
  if (states.empty()) return placing;
  if (!placing.ask) {
    std::vector<ExplainedCandidate> explained;
    const auto ways = matcher.ways(placing.candidates);
    for (std::size_t n = 0; n < ways.size(); ++n) explained.push_back({placing.candidates[n], ways[n]});
    placing.ask = best_question(model, observed, options, states, explained);
  }
  placing.measure_more =
      how_much_further(matcher, reading, observed, options, states, most_work - std::min(most_work, posterior.work()));
  if (!placing.ask && placing.measure_more && !reading.bar_at_open_end) {
    placing.ask = Question{Question::Kind::how_long, reading.entries.size() - 1, 0};
  }
  return placing;
}

}  // namespace ballchange
