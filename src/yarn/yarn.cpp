#include "yarn/yarn.hpp"

namespace ballchange {

Habits habits(Reckoning reckoning) {
  if (reckoning == Reckoning::stitches) {
    return {.short_section = 3_cm,
            .tape_fixed = 0.5_cm,
            .join_doubt = 1.5_cm,
            .room = 8_cm,
            .margin = 2_cm,
            .worth_telling = 10_cm,
            .usual_tolerance = 2_cm};
  }
  return {.short_section = 5_cm,
          .tape_fixed = 0.5_cm,
          .join_doubt = 1.5_cm,
          .room = 15_cm,
          .margin = 3_cm,
          .worth_telling = 20_cm,
          .usual_tolerance = 3_cm};
}

}  // namespace ballchange
