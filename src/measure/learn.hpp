#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "match/place.hpp"
#include "reading/reading.hpp"
#include "yarn/yarn.hpp"

// The repeat of a yarn from measured strands. How: DEVELOPERS.md, "Learning a repeat".
namespace ballchange {

struct MeasuredStrand {
  Reading reading;
  MatchOptions match;  // the tape, and which end of its ball it comes from
};

struct LearnOptions {
  double sure = 0.95;
  Reckoning reckoning = Reckoning::centimetres;
  double ball_plus_minus = 0.02;   // between the balls the strands come from
  std::optional<Length> total;     // of the repeat, where it was told
  bool mirrored = false;           // with `total`: the yarn turns back on itself, as a hank dyed across the loop
  std::optional<Repeat> believed;  // a repeat for the strands to sharpen; its colours come first in the palette
  std::size_t known_colours = 0;   // the first of the palette: all that the yarn is known to have; 0: not known
};

// One repeat the strands may have been read from.
struct LearntRepeat {
  Repeat repeat;                   // begins where the first strand does, or as the believed one
  std::vector<std::size_t> times;  // each section was written by itself with its length; below 2 its plus_minus is only
                                   // what is usual
  double chance = 0;               // 0 as well for a guess that nothing but the order of the colours speaks for
};

// An entry under another name than that of its section. Strand and entry from 0, the entry from the loose end.
struct TakenAs {
  std::size_t strand = 0, entry = 0;
  ColourId written = 0, taken = 0;
};

enum class LearnVerdict {
  found,
  unsure,      // another repeat explains the strands nearly as well, or that nothing comes round again; or `misread`
  too_little,  // nothing comes round again
  unmeasured,  // one colour's length was written down nowhere
  no_fit,      // a strand that isn't of the believed repeat, nor of any with the others
  turned,      // all is known but which way round: strands run against each other, see `other_way`
  exchanged,   // all is known, if two entries of a strand stand in each other's place, see `exchanged`, `taken`
  misnamed,    // all is known but one section's name: written one way once, another way once, see `taken`
  unknown_colour,  // one that the yarn isn't known to have was taken for another, see `taken`
  new_colour,      // one that the yarn isn't known to have, in a strand that fits nothing else, see `taken`: written
                   // and taken are the same
  other_total,     // the strands come round, but not at the total that was told
  not_mirrored,    // nor do they turn back on themselves
  hank_too_short   // they do, but not within the total that was told: it must be longer
};

// What two entries of a strand have of each other; where it is `lengths`, `taken` holds what was written.
enum class Exchanged { names, lengths, both };

struct Learnt {
  LearnVerdict verdict = LearnVerdict::too_little;
  // Best first: those above 1 %, the best always; none with too_little, unmeasured; by the strands alone with
  // other_total and not_mirrored, where they tell any.
  std::vector<LearntRepeat> repeats;
  std::optional<Length> measure_more;  // too_little, unsure: about what it takes, often less
  bool part_unseen = false;            // with measure_more: it is what was not seen of the total that was told
  std::optional<Length> by_itself;     // found, with a total: where the strands without it come round, far from it
  std::optional<ColourId> come_again;  // too_little: the first colour of the only strand, which may be by chance
  std::optional<ColourId> until;       // with measure_more: the colour that shows by then, so that less may do
  std::optional<ColourId> unmeasured;  // the colour
  std::size_t strand = 0;              // no_fit: the one in the way, from 0
  bool misread = false;                // unsure: the only strand doesn't fit the best, so something in it is wrong
  // By the best: strands that run against the first, or against the believed repeat, though that was not expected.
  std::vector<std::size_t> other_way;
  std::vector<std::size_t> backward;  // all that run so by the best, expected or not
  // By the best; with unknown_colour, new_colour, misnamed, exchanged only those it is about.
  std::vector<TakenAs> taken;
  Exchanged exchanged = Exchanged::names;
  [[nodiscard]] const LearntRepeat& best() const { return repeats.front(); }
};

// `strands` is not empty. All colours are of `palette`.
[[nodiscard]] Learnt learn(const std::vector<MeasuredStrand>& strands, const std::vector<Colour>& palette,
                           const LearnOptions& options);

}  // namespace ballchange
