#include "ledger/yarn_by_stitch.hpp"

#include <utility>
#include <vector>

namespace ballchange {

Yarn in_centimetres(Yarn yarn, Length stitch) {
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

}  // namespace ballchange
