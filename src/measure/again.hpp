#pragma once
#include <optional>
#include <vector>

#include "measure/learn.hpp"
#include "measure/weigh.hpp"

// What is learnt once more from other strands than were told: without some of them, in a longer hank, with two entries
// exchanged. So a slip is asked about by what mending it would explain.
namespace ballchange::measuring {

// The strands that tell something.
struct Readable {
  std::vector<matching::Observed> strands;
  std::vector<MatchOptions> match;
  std::vector<std::size_t> numbers;  // as they were given, from 0
};

// What they say, without how much more to measure.
[[nodiscard]] Learnt what_they_say(const Readable& readable, const Lore& lore, const LearnOptions& options);
// What holds besides the strands, of any repeat: the total that was told; and of the one that was believed.
[[nodiscard]] Bound total_of(const LearnOptions& options);
[[nodiscard]] std::vector<Patch> prior_of(const LearnOptions& options);

// Whether the strands turn back on themselves in a longer hank than was told. It must not be so long that a strand need
// not turn inside it, or else any would do.
[[nodiscard]] bool mirrored_if_longer(const Readable& readable, const Lore& lore, const LearnOptions& options);

// A strand with a colour the yarn isn't known to have may fit nothing for that alone: where the others do without it,
// it is asked whether that is new.
void ask_if_new(Learnt& learnt, const Readable& readable, const Lore& lore, const LearnOptions& options);

// Two entries that stand in each other's place fit as two misnamed ones, or as a section that every other pass passed
// over, or not at all: where the strands go together so much better with them exchanged that it is no rarer than a
// slip of the pen, it is asked. `best` is what `learnt` says first, if it says anything.
void ask_if_exchanged(Learnt& learnt, const std::optional<Weighed>& best, const Readable& readable, const Lore& lore,
                      const LearnOptions& options);

}  // namespace ballchange::measuring
