#include "ledger/fold.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "ledger/folding.hpp"

namespace ballchange {
namespace {

std::vector<const Did*> entries_of(const Project& project) {
  std::vector<const Did*> entries;
  entries.reserve(project.entries.size() + 1);
  for (const LogEntry& entry : project.entries) entries.push_back(&entry.what);
  return entries;
}

}  // namespace

State fold(const Project& project) { return Folding(project, entries_of(project)).run(); }

Checked check_next(const Project& project, const State& before, const Did& next) {
  std::vector<const Did*> entries = entries_of(project);
  entries.push_back(&next);
  Checked checked{{}, Folding(project, std::move(entries), Folding::Last::just_told).run()};
  const auto known = [&](const Trouble& trouble) {
    const auto by_entry = [](const Trouble& a, const Trouble& b) { return a.entry < b.entry; };
    const auto [first, last] = std::equal_range(before.troubles.begin(), before.troubles.end(), trouble, by_entry);
    return std::any_of(first, last, [&](const Trouble& b) { return b.skipped == trouble.skipped; });
  };
  std::remove_copy_if(checked.after.troubles.begin(), checked.after.troubles.end(),
                      std::back_inserter(checked.troubles), known);
  return checked;
}

}  // namespace ballchange
