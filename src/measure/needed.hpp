#pragma once
#include <optional>
#include <vector>

#include "match/place.hpp"
#include "yarn/yarn.hpp"

// What a yarn asks of whoever reads it.
namespace ballchange {

// How long a reading of a loose end must be until its place is settled.
struct ReadingNeeded {
  std::optional<Length> nine_in_ten;  // nothing: two repeats would not do
  std::optional<Length> at_worst;     // but for one in fifty; nothing: more would not do
};
// Simulated with a fixed seed; the same wherever the repeat begins.
[[nodiscard]] ReadingNeeded reading_needed(const Yarn& yarn, const MatchOptions& options);

// Two stretches of the repeat that read the same: `sections` of them, those between the first and the last within what
// readings scatter by; of two and more, a reading shows of the outer ones only a part.
struct LookAlike {
  std::size_t first = 0, second = 0;  // where each begins
  std::size_t sections = 1;
};
// The longest of each kind, longest first; none within another. Those that a shorter repeat makes are left out when the
// yarn hides one: there everything looks alike.
[[nodiscard]] std::vector<LookAlike> look_alikes(const Repeat& repeat);

}  // namespace ballchange
