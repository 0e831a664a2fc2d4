#include "ledger/fold.hpp"

#include <algorithm>
#include <iterator>

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

std::vector<Trouble> check_next(const Project& project, const Did& next) {
  std::vector<const Did*> entries = entries_of(project);
  const std::vector<Trouble> before = Folding(project, entries).run().troubles;
  entries.push_back(&next);
  std::vector<Trouble> troubles = Folding(project, entries, Folding::Last::just_told).run().troubles;
  const auto known = [&](const Trouble& trouble) {
    const auto by_entry = [](const Trouble& a, const Trouble& b) { return a.entry < b.entry; };
    const auto [first, last] = std::equal_range(before.begin(), before.end(), trouble, by_entry);
    return std::any_of(first, last, [&](const Trouble& b) { return b.skipped == trouble.skipped; });
  };
  troubles.erase(std::remove_if(troubles.begin(), troubles.end(), known), troubles.end());
  return troubles;
}

}  // namespace ballchange
