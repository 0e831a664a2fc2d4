#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "match/place.hpp"
#include "reading/reading.hpp"
#include "yarn/yarn.hpp"

// The repeat of a yarn from measured strands. Its model is the matcher's; DEVELOPERS.md, "Learning a repeat".
namespace ballchange {

struct LearnOptions {
  MatchOptions match;
  Reckoning reckoning = Reckoning::centimetres;
  double ball_plus_minus = 0.02;   // between the balls the strands come from
  std::optional<Length> total;     // of the repeat, where it was told
  bool mirrored = false;           // a hank dyed across the loop: the second half is the first one backward
  std::optional<Repeat> believed;  // a repeat the strands sharpen; its colours come first in the palette
};

struct LearntSection {
  Section section;
  std::size_t times = 0;  // written by itself with its length; below 2 its plus_minus is only the usual one
};

// One repeat the strands may have been read from.
struct LearntRepeat {
  Repeat repeat;
  std::vector<std::size_t> times;  // each section was written by itself with its length
  double chance = 0;
};

enum class LearnVerdict {
  found,
  unsure,      // another repeat, or none, explains the strands nearly as well
  too_little,  // nothing comes round again
  unmeasured,  // a colour whose length was written down nowhere
  no_fit       // strands that can't be of one yarn
};

struct Learnt {
  LearnVerdict verdict = LearnVerdict::too_little;
  std::vector<LearntRepeat> repeats;   // best first; those above 1 %, and the best always when any is known
  std::optional<Length> measure_more;  // too_little, unsure
  ColourId unmeasured = 0;
  std::size_t strand = 0;  // no_fit: the one in the way
  [[nodiscard]] const LearntRepeat& best() const { return repeats.front(); }
};

// `strands` is not empty. All colours are of `palette`.
[[nodiscard]] Learnt learn(const std::vector<Reading>& strands, const std::vector<Colour>& palette,
                           const LearnOptions& options);

}  // namespace ballchange
