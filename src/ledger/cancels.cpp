#include "ledger/cancels.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace ballchange {

// From the last entry to the first: only a later entry can cancel one, so each is settled when its turn comes.
std::vector<bool> cancelled_entries(const std::vector<const Did*>& entries, std::vector<Trouble>& troubles) {
  std::vector<std::size_t> by(entries.size() + 1, 0);  // which entry cancels it; 0: none
  for (std::size_t n = entries.size(); n > 0; --n) {
    const auto* cancel = std::get_if<did::Cancel>(entries[n - 1]);
    if (cancel == nullptr || by[n] != 0) continue;
    const auto number = static_cast<int>(n);
    if (cancel->entry < 1 || cancel->entry >= number) {
      troubles.push_back(
          {number, true, fmt::format("entry {} doesn't stand before it; name an earlier one", cancel->entry)});
      continue;
    }
    std::size_t& canceller = by[static_cast<std::size_t>(cancel->entry)];
    if (canceller != 0) {
      troubles.push_back({static_cast<int>(canceller), true,
                          fmt::format("entry {} is cancelled already, by entry {}", cancel->entry, n)});
    }
    canceller = n;
  }
  std::vector<bool> cancelled(entries.size());
  for (std::size_t n = 1; n <= entries.size(); ++n) cancelled[n - 1] = by[n] != 0;
  return cancelled;
}

}  // namespace ballchange
