#include <algorithm>
#include <cmath>
#include <map>

#include "match/settle.hpp"

namespace ballchange::matching {
namespace {

// An answer must leave the best candidate this much likelier to be worth a question.
constexpr double worth_asking = 0.005;
constexpr std::size_t grid_points = 120;

// A question with how likely the best candidate is after its answer, on average.
struct Scored {
  Question question;
  double score = 0;
};

// Which colour follows?
double score_next_colour(const Model& model, const Observed& observed, const std::vector<OpenState>& states) {
  const std::size_t size = model.sides[0].size();
  const std::size_t colours = model.sides[0].colours;
  // [colour][direction and boundary]
  std::vector<std::vector<double>> chances(colours, std::vector<double>(2 * size));
  for (const OpenState& state : states) {
    const std::vector<double> next = next_colour(model, observed, state);
    const std::size_t offset = state.direction == Direction::backward ? size : 0;
    for (std::size_t boundary = 0; boundary < size; ++boundary) {
      if (state.boundary[boundary] == 0) continue;
      for (ColourId colour = 0; colour < colours; ++colour) {
        chances[colour][offset + boundary] += state.boundary[boundary] * next[colour];
      }
    }
  }
  double score = 0;
  for (const auto& answer : chances) score += *std::max_element(answer.begin(), answer.end());
  return score;
}

// The length one candidate lets an entry have.
struct Expected {
  double chance = 0, mean = 0, sd = 0;
};

// How long is entry `index`?
double score_length(const Model& model, const MatchOptions& options, const std::vector<ExplainedCandidate>& candidates,
                    std::size_t index) {
  std::vector<Expected> expected;
  for (const ExplainedCandidate& one : candidates) {
    if (index >= one.why.size()) continue;
    const Side& forward = model.sides[0];
    Block block;
    for (const std::size_t section : one.why[index].sections) {
      block.mean += forward.mean[section];
      block.variance += forward.variance[section];
    }
    const double tape = options.tape.fixed.cm() + options.tape.share * block.mean;
    const double stretch = model.ball_plus_minus * block.mean;
    const double variance = std::max(block.variance + tape * tape + stretch * stretch, finest * finest);
    expected.push_back({one.candidate.probability, block.mean, std::sqrt(variance)});
  }
  double low = 1e300, high = 0;
  for (const Expected& e : expected) {
    low = std::min(low, e.mean - 4 * e.sd);
    high = std::max(high, e.mean + 4 * e.sd);
  }
  double score = 0;
  const double step = (high - low) / grid_points;
  for (std::size_t n = 0; n <= grid_points; ++n) {
    double best = 0;
    for (const Expected& e : expected) {
      const double z = (low + step * static_cast<double>(n) - e.mean) / e.sd;
      best = std::max(best, e.chance * std::exp(-z * z / 2) / (root_two_pi * e.sd));
    }
    score += best * step;
  }
  return score;
}

// Yes-or-no questions: candidates apart by what they say of one entry, the best of each group added up.
template <typename Says>
double score_yes_or_no(const std::vector<ExplainedCandidate>& candidates, Says says) {
  double yes = 0, no = 0;
  for (const ExplainedCandidate& one : candidates) {
    double& group = says(one) ? yes : no;
    group = std::max(group, one.candidate.probability);
  }
  return yes + no;
}

void score_names(const Model& model, const std::vector<ExplainedCandidate>& candidates, std::vector<Scored>& scored) {
  const Side& forward = model.sides[0];
  const auto misnamed = [&](const ExplainedCandidate& one, std::size_t entry, ColourId colour) {
    if (entry >= one.why.size() || !one.why[entry].misnamed) return false;
    const auto& sections = one.why[entry].sections;
    const std::size_t named = sections.front();
    return forward.colour[named] == colour;
  };
  const auto overlooks = [&](const ExplainedCandidate& one, std::size_t entry, ColourId colour) {
    if (entry >= one.why.size()) return false;
    const auto& passed = one.why[entry].overlooked;
    return std::any_of(passed.begin(), passed.end(), [&](std::size_t k) { return forward.colour[k] == colour; });
  };
  for (const ExplainedCandidate& one : candidates) {
    for (const Explained& explained : one.why) {
      const std::size_t entry = explained.entry;
      if (explained.misnamed) {
        const ColourId really = forward.colour[explained.sections.front()];
        const double score = score_yes_or_no(
            candidates, [&](const ExplainedCandidate& other) { return misnamed(other, entry, really); });
        scored.push_back({{Question::Kind::look_alike, entry, really}, score});
      }
      for (const std::size_t section : explained.overlooked) {
        const ColourId splash = forward.colour[section];
        const double score = score_yes_or_no(
            candidates, [&](const ExplainedCandidate& other) { return overlooks(other, entry, splash); });
        scored.push_back({{Question::Kind::overlooked, entry, splash}, score});
      }
    }
  }
}

}  // namespace

std::optional<Question> best_question(const Model& model, const Observed& observed, const MatchOptions& options,
                                      const std::vector<OpenState>& states,
                                      const std::vector<ExplainedCandidate>& candidates) {
  if (candidates.empty()) return std::nullopt;
  const std::size_t last = observed.entries.size() - 1;
  std::vector<Scored> scored;
  scored.push_back({{Question::Kind::which_follows, last, 0}, score_next_colour(model, observed, states)});
  score_names(model, candidates, scored);
  // Of the first stretch only a bar says that it is whole.
  for (std::size_t index = observed.bar_at_loose_end ? 0 : 1; index <= last; ++index) {
    const bool open = index == last && !observed.bar_at_open_end;
    if (open || !observed.entries[index].known) {
      scored.push_back({{Question::Kind::how_long, index, 0}, score_length(model, options, candidates, index)});
    }
  }
  const Scored* best = nullptr;
  for (const Scored& offer : scored) {
    if (best == nullptr || offer.score > best->score + worth_asking) best = &offer;
  }
  if (best->score < candidates.front().candidate.probability + worth_asking) return std::nullopt;
  return best->question;
}

}  // namespace ballchange::matching
