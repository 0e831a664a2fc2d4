#pragma once
#include <vector>

#include "measure/learn.hpp"
#include "measure/weigh.hpp"

// What a repeat that was found leaves to be asked: which way round it runs, and of names that fit no section.
namespace ballchange::measuring {

// Of strands that run against each other no more yarn tells which is the usual way: where the best is followed by its
// mirror image they become one, the way round that the first strand has. Best first before and after. The mirror's
// share of the two; 0 where there is none.
double merge_mirror(std::vector<Weighed>& weighed);

// Sets other_way and taken of one that was found, strands as `match` counts them; and unknown_colour where a colour
// beyond the first `known_colours` of the palette was taken for another, 0: none is unknown.
void tell_doubts(Learnt& learnt, const Weighed& best, const std::vector<MatchOptions>& match,
                 std::size_t known_colours);

}  // namespace ballchange::measuring
