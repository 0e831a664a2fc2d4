#pragma once
#include <string>

#include "join/advice.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

// The advice at a ball change, as a screen for people and as JSON for tools.
namespace ballchange {

// The advice and all it was given for.
struct CheckShown {
  const Yarn* yarn;  // null where only whole lengths are known; then nothing is placed
  const std::vector<Colour>& colours;
  const Strand& old_strand;
  const Strand& new_strand;
  const Fabric& fabric;
  const JoinWish& wish;
  const Advice& advice;
};

[[nodiscard]] std::string check_screen(const CheckShown& shown, const Screen& screen, Told told, bool verbose);
[[nodiscard]] std::string check_json(const CheckShown& shown);

// One remark in words, e.g. "The two ends follow each other."
[[nodiscard]] std::string remark_text(Remark remark, const CheckShown& shown, Told told);

}  // namespace ballchange
