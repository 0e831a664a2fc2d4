#include "yarn/yarn.hpp"

#include <algorithm>
#include <cassert>
#include <utility>
#include <vector>

namespace ballchange {

Length usual_plus_minus(Length length) { return std::min(0.5_cm + length * 0.06, length / 3); }

Yarn in_centimetres(Yarn yarn, Length stitch) {
  assert(yarn.reckoning == Reckoning::stitches && stitch > Length());
  std::vector<Section> sections = yarn.repeat.sections();
  for (Section& section : sections) {
    section.length = section.length.cm() * stitch;
    section.plus_minus = section.plus_minus.cm() * stitch;
  }
  yarn.repeat = Repeat(yarn.repeat.colours(), std::move(sections));
  if (yarn.ball_length) yarn.ball_length = yarn.ball_length->cm() * stitch;
  yarn.reckoning = Reckoning::centimetres;
  return yarn;
}

Habits habits(Reckoning reckoning) {
  if (reckoning == Reckoning::stitches) {
    return {.short_section = 3_cm,
            .tape_fixed = 0.5_cm,
            .join_doubt = 1.5_cm,
            .room = 8_cm,
            .margin = 2_cm,
            .worth_telling = 10_cm,
            .least_trim = 1_cm,
            .usual_tolerance = 2_cm};
  }
  return {.short_section = 5_cm,
          .tape_fixed = 0.5_cm,
          .join_doubt = 1.5_cm,
          .room = 15_cm,
          .margin = 3_cm,
          .worth_telling = 20_cm,
          .least_trim = 2_cm,
          .usual_tolerance = 3_cm};
}

}  // namespace ballchange
