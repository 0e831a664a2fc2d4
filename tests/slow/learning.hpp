#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "measure/learn.hpp"
#include "slow/strand.hpp"

// Repeats learnt from strands of invented yarns, held against the truth and against somebody who knows which entry is
// of which section.
namespace ballchange::slow {

struct LearnWish {
  double repeats = 2.5;   // how long each strand is
  bool shades = false;    // whether the yarn has shades, and the learner knows them
  double leaves_out = 0;  // of the lengths
};

// A strand somebody measured, and what is true of it.
struct Lesson {
  Yarn yarn;
  Strand strand;
  Reading reading;
  bool all_written = false;  // every section gave an entry its name
};
[[nodiscard]] Lesson make_lesson(const LearnWish& wish, Random& random);

struct Marked {
  bool right = false;               // number of sections
  bool right_names = false;         // and their colours, in order
  double squares = 0, perfect = 0;  // mean over the sections, cm^2: of what was learnt, of the perfect observer
};
[[nodiscard]] Marked mark(const Lesson& lesson, const Learnt& learnt);

}  // namespace ballchange::slow
