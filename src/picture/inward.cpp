#include "picture/inward.hpp"

#include <algorithm>

namespace ballchange {

Inward::Inward(const Repeat& repeat, const Strand& strand)
    : repeat_(repeat),
      old_(strand.reading.end == End::old_end),
      descending_(old_ != (strand.placing.best().direction == Direction::backward)) {}

std::size_t Inward::next(std::size_t section) const {
  const std::size_t n = repeat_.size();
  return descending_ ? (section + n - 1) % n : (section + 1) % n;
}

std::vector<std::size_t> Inward::sections(const Explained& why) const {
  std::vector<std::size_t> inward = why.sections;
  if (old_) std::reverse(inward.begin(), inward.end());
  return inward;
}

bool knows_section_only(const Placing& placing) {
  return placing.ask &&
         (placing.ask->kind == Question::Kind::first_length || placing.ask->kind == Question::Kind::next_change);
}

const Explained* explained(const Placing& placing, std::size_t entry) {
  for (const Explained& why : placing.why) {
    if (why.entry == entry && !why.sections.empty()) return &why;
  }
  return nullptr;
}

std::vector<ColourId> colours_inward(const Repeat* repeat, const Strand& strand, std::size_t changes) {
  const std::vector<Entry>& entries = strand.reading.entries;
  std::vector<ColourId> colours;
  for (std::size_t i = 0; i < std::min(changes, entries.size()); ++i) colours.push_back(entries[i].colour);
  if (colours.size() == changes || repeat == nullptr || strand.placing.candidates.empty()) return colours;
  const Explained* last = explained(strand.placing, entries.size() - 1);
  if (last == nullptr) return colours;
  const Inward inward(*repeat, strand);
  std::size_t k = inward.sections(*last).back();
  while (colours.size() < changes) {
    k = inward.next(k);
    colours.push_back(inward.section(k).colour);
  }
  return colours;
}

}  // namespace ballchange
