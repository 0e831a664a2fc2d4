#pragma once
#include <string>
#include <vector>

#include "join/advice.hpp"
#include "ledger/state.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

// The advice at a ball change, as a screen for people and as JSON for tools.
namespace ballchange {

// What the project knows of this ball change.
struct BallCost {
  std::string ball;
  Length discard;
};
struct CheckProject {
  std::string ball;              // the fresh one; empty where it has no name yet
  bool chosen = false;           // as the one that costs least, not by the crafter
  std::vector<BallCost> others;  // the other fresh balls that could be joined now, cheapest first
  Totals totals;                 // before this join
};

// The advice and all it was given for.
struct CheckShown {
  const Yarn* yarn;  // null where only whole lengths are known; then nothing is placed
  const std::vector<Colour>& colours;
  const Strand& old_strand;
  const Strand& new_strand;
  const Fabric& fabric;
  const JoinWish& wish;
  const Advice& advice;
  const CheckProject* project = nullptr;
};

[[nodiscard]] std::string check_screen(const CheckShown& shown, const Screen& screen, Told told, bool verbose);
[[nodiscard]] std::string check_json(const CheckShown& shown);

// One remark in words, e.g. "The two ends follow each other."
[[nodiscard]] std::string remark_text(Remark remark, const CheckShown& shown, Told told);

}  // namespace ballchange
