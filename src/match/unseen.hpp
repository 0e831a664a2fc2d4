#pragma once
#include "match/runs.hpp"

// Readings whose place is open within a section: no change was seen, or the length to the first change was left out.
namespace ballchange::matching {

// No change visible: each section of that name is a candidate and the place is spread over it. Fills a Placing that is
// not settled and asks to measure to the next change.
void place_without_change(const Model& model, const Observed& observed, const MatchOptions& options, Placing& placing);

// The first length is missing: the interval is the section beside the change, its middle the guess.
void widen_to_section(const Model& model, End end, Placing& placing);

}  // namespace ballchange::matching
