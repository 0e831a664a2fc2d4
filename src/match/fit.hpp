#pragma once
#include "match/path.hpp"
#include "match/unseen.hpp"

// Whether the likeliest way a reading came to be can be believed at all.
namespace ballchange::matching {

// Lengths so far off have a chance below 1e-6 (chi-square), or so many slips (unlike colours written down wrong, long
// sections passed over) one below 5e-5, or both together one below 1e-7: not to be believed.
[[nodiscard]] bool fits(const Model& model, const Observed& observed, const Path& path, Direction direction);
// The same for a strand on which no change was seen.
[[nodiscard]] bool fits(const Model& model, const Observed& observed, const Unseen& run, Direction direction);

// Of a reading that does not fit: the entry without whose length it would, or else the one furthest off.
[[nodiscard]] std::size_t worst_entry(const Model& model, const Observed& observed, const MatchOptions& options);

}  // namespace ballchange::matching
