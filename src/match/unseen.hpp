#pragma once
#include "match/runs.hpp"

// Readings whose place is open within a section: no change was seen, or the length to the first change was left out.
namespace ballchange::matching {

// Sections that may lie between an unseen change and a loose end with at least what was read left before the change.
struct Unseen {
  double chance = 0;  // unnormalised
  std::size_t boundary = 0;
  std::size_t first = 0, count = 0;  // working order; the loose end lies in the first (new end) or the last (old end)
  Block others, cut;                 // the section of the loose end is `cut`
};
[[nodiscard]] std::vector<Unseen> unseen_runs(const Model& model, const Side& side, const Observed& observed);

// No change visible: each section of that name is a candidate and the place is spread over it. Fills a Placing that is
// not settled and asks to measure to the next change;
// false where no section is that long.
[[nodiscard]] bool place_without_change(const Model& model, const Observed& observed, const MatchOptions& options,
                                        Placing& placing);

// The first length is missing: the interval is the section beside the change, its middle the guess.
void widen_to_section(const Model& model, End end, Placing& placing);

}  // namespace ballchange::matching
