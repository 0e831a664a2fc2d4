#pragma once
#include <vector>

#include "ledger/project.hpp"
#include "ledger/state.hpp"

// The ledger's arithmetic, in time linear in the entries, and in the joins behind one that came apart and is made
// again.
//
// An entry that doesn't fit what stands before it is skipped and told among the troubles, never fatal here: a log
// outlives the program that wrote it. A cancelled entry counts for nothing, and what follows it is checked without it.
// Ravelling gives yarn and rows back: joins it passes come apart when woven or doubled, the fresh strand then loose
// again, and otherwise stay on the strand and land where the same yarn is worked again. What was trimmed stays trimmed.
namespace ballchange {

[[nodiscard]] State fold(const Project& project);

// What comes of one more entry. Its own troubles name options instead of the file's keys, in `after` too.
struct Checked {
  // That come up with it: its own, and for one that changes what came before (cancel, gauge) those of other entries.
  // None skipped: it can be recorded.
  std::vector<Trouble> troubles;
  State after;
};

// `before` is what the project folds to.
[[nodiscard]] Checked check_next(const Project& project, const State& before, const Did& next);

}  // namespace ballchange
