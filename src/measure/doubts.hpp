#pragma once
#include <optional>
#include <vector>

#include "measure/learn.hpp"
#include "measure/weigh.hpp"

// What a repeat that was found leaves to be asked: which way round it runs, and of names that fit no section.
namespace ballchange::measuring {

// Of strands that run against each other no more yarn tells which is the usual way: where the best is followed by its
// mirror image they become one, the way round that most strands have; of as many each way, that of the first. Best
// first before and after. The mirror's share of the two; 0 where there is none.
double merge_mirror(std::vector<Weighed>& weighed);

// Sections of the best that bear another name in a circle nearly as likely, as where a colour was written rightly once
// and wrongly once.
struct NamesOpen {
  std::vector<std::size_t> sections;
};
// They become one: with the names that are known before others, and else those that were written first. Best first
// before and after; `known_colours` as below. None is open where all other names together are less likely than 1 -
// sure.
[[nodiscard]] NamesOpen merge_names(std::vector<Weighed>& weighed, std::size_t known_colours, double sure);

// Of one that was found: sets other_way and taken, strands as `match` counts them, and the verdict where a name is to
// be asked about: a colour beyond the first `known_colours` of the palette (0: none is unknown), a section of two
// names, a name that several strands have and no section, or an entry that has neither the name of its section nor its
// length.
void tell_doubts(Learnt& learnt, const Weighed& best, const NamesOpen& names, const std::vector<MatchOptions>& match,
                 std::size_t known_colours);
// Of one that is not sure yet: asks about a name where all that is likely besides has a section of each of its two.
void ask_what_settles(Learnt& learnt, const Weighed& best, const NamesOpen& names, double sure);

// The repeat as it is told: by the total where one was, from where the first strand begins.
[[nodiscard]] LearntRepeat as_told(const Weighed& weighed, double chance, const LearnOptions& options,
                                   const Lore& lore);

// How well a total that was told is known, as a share of it.
inline constexpr double total_known_to = 0.01;
// What was told of the whole repeat is not asked where the strands by themselves, `alone`, say otherwise: the lengths
// would be bent to it.
[[nodiscard]] std::optional<LearnVerdict> contradicted(const Learnt& alone, const LearnOptions& options);

}  // namespace ballchange::measuring
