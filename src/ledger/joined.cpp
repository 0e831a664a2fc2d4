#include "ledger/joined.hpp"

#include <algorithm>

namespace ballchange {
namespace {

// Colours that may follow so close behind: its section is that long at least, or no longer.
void add_following(const Repeat& repeat, Length near, JoinedSection& told) {
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const Section& section = repeat.sections()[k];
    if (section.colour != told.colour) continue;
    const Length least = section.length - 2 * section.plus_minus;
    const std::size_t next = (k + 1) % repeat.size();
    if (!told.into || *told.into + near >= least) told.may_seem.push_back(repeat.sections()[next].colour);
  }
}

}  // namespace

std::optional<JoinedSection> joined_section(const Reading& old_end, const Repeat& repeat, Length middle, Length near) {
  Length from;
  for (std::size_t i = 0; i < old_end.entries.size(); ++i) {
    const Entry& entry = old_end.entries[i];
    const bool open = i + 1 == old_end.entries.size() && !old_end.bar_at_open_end;
    if (!entry.length && !open) return std::nullopt;
    const Length to = from + entry.length.value_or(Length());
    if (!open && middle >= to) {
      from = to;
      continue;
    }
    if (middle > to && entry.length) return std::nullopt;
    JoinedSection told{entry.colour, open ? std::nullopt : std::optional(to - middle), {entry.colour}};
    // What lies nearer to the loose end is worked later.
    if (i > 0 && middle - from <= near) told.may_seem.push_back(old_end.entries[i - 1].colour);
    if (!open && i + 1 < old_end.entries.size() && to - middle <= near) {
      told.may_seem.push_back(old_end.entries[i + 1].colour);
    }
    add_following(repeat, near, told);
    return told;
  }
  return std::nullopt;
}

}  // namespace ballchange
