#pragma once
#include <optional>
#include <string>
#include <vector>

#include "slow/slow_match.hpp"
#include "slow/strand.hpp"

// The fast matcher against the slow one, on one reading.
namespace ballchange::slow {

struct Comparison {
  bool held_together = false;  // false: fits nowhere, or no change was seen
  std::string difference;      // "" when they agree; otherwise what differs, the yarn, the reading, both posteriors
};
// They agree when every candidate's chance does to 1e-6 and its place to 1e-6 cm, the best comes first, and none above
// 1 % is missing.
[[nodiscard]] Comparison compare(const Yarn& yarn, Matcher& matcher, const Reading& reading,
                                 const MatchOptions& options);
// Both for a message: sections, then the reading.
[[nodiscard]] std::string in_words(const Yarn& yarn, const Reading& reading);

// A small yarn, and a reading off it or of anything at all.
struct Case {
  Yarn yarn;
  Reading reading;
  MatchOptions options;
};
[[nodiscard]] Case random_case(Random& random);

// Three sections, one of them a splash, two of them look-alikes.
[[nodiscard]] Yarn small_yarn();
// Every reading of up to `most_entries` entries with these lengths, at both ends, with and without bars.
void every_reading(const Yarn& yarn, const std::vector<std::optional<Length>>& lengths, std::size_t most_entries,
                   const std::function<void(const Reading&)>& visit);

}  // namespace ballchange::slow
