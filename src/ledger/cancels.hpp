#pragma once
#include <vector>

#include "ledger/entry.hpp"
#include "ledger/state.hpp"

namespace ballchange {

// Which entries are cancelled: a cancel that is cancelled itself cancels nothing. Cancels that do nothing are told
// among the troubles.
[[nodiscard]] std::vector<bool> cancelled_entries(const std::vector<const Did*>& entries,
                                                  std::vector<Trouble>& troubles);

}  // namespace ballchange
