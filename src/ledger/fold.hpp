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

// The troubles that come up with `next` as the next entry: its own, and for one that changes what came before
// (cancel, gauge) those of other entries. None skipped: it can be recorded.
[[nodiscard]] std::vector<Trouble> check_next(const Project& project, const Did& next);

}  // namespace ballchange
