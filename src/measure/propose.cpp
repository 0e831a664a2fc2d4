#include "measure/propose.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "measure/fold.hpp"

namespace ballchange::measuring {
namespace {

constexpr std::size_t beginnings = 3;  // the first whole entries, in case one of them is never written so again
constexpr std::size_t most_rounds = 12;
constexpr std::size_t enough_entries = 200;  // to see most repeats come round

// Sections that one pass of the strand shows where the circle has one.
std::optional<Block> finer(const Circle& circle, const Line& line, const Folded& folded) {
  const Block* best = nullptr;
  for (const Block& block : folded.blocks) {
    if (block.entries < 2 || (best != nullptr && block.entries <= best->entries)) continue;
    const std::size_t next = (block.section + 1) % circle.size();
    if (line.entries[block.entry + block.entries - 1].colour == circle[next].colour) continue;
    best = &block;
  }
  return best == nullptr ? std::nullopt : std::optional<Block>(*best);
}

void split(Circle& circle, const Line& line, const Block& block) {
  Circle finer_part;
  for (std::size_t n = 0; n < block.entries; ++n) finer_part.push_back(patch_of(line.entries[block.entry + n]));
  const ColourId known_as = circle[block.section].colour;
  const auto at = circle.begin() + static_cast<std::ptrdiff_t>(block.section);
  circle.insert(circle.erase(at), finer_part.begin(), finer_part.end());
  const ColourId written = circle[block.section].colour;
  circle[block.section].colour = known_as;
  if (!closes(circle)) circle[block.section].colour = written;
}

// Lengths left out in one pass, from another that has them.
bool fill(Circle& circle, const Line& line, const Folded& folded) {
  bool filled = false;
  for (const Block& block : folded.blocks) {
    const matching::Measured& entry = line.entries[block.entry];
    const bool whole = block.entry >= line.from && block.entry < line.to;
    if (!whole || !entry.known || block.entries > 1 || block.sections > 1) continue;
    Patch& patch = circle[block.section];
    if (patch.known()) continue;
    const ColourId colour = patch.colour;
    patch = patch_of(entry);
    patch.colour = colour;
    filled = true;
  }
  return filled;
}

// The circle that line.entries[begin .. end-1] make, with what the passes after it show besides.
std::optional<Proposal> grown(const Line& line, std::size_t begin, std::size_t end, const Lore& lore) {
  Circle circle;
  for (std::size_t entry = begin; entry < end; ++entry) circle.push_back(patch_of(line.entries[entry]));
  if (!closes(circle)) return std::nullopt;
  Folded folded;
  for (std::size_t round = 0; round < most_rounds; ++round) {
    folded = fold_on(circle, line, end, lore);
    if (folded.score < 0) return std::nullopt;
    if (fill(circle, line, folded)) continue;
    const std::optional<Block> block = finer(circle, line, folded);
    if (!block || circle.size() + block->entries > most_sections + 1) break;
    Circle before = circle;
    split(circle, line, *block);
    if (closes(circle)) continue;
    circle = std::move(before);
    break;
  }
  return Proposal{std::move(circle), folded.score};
}

}  // namespace

Patch patch_of(const matching::Measured& entry) {
  if (!entry.known) return {entry.colour, 0, 0};
  // Another pass differs from this one by both their own scatter, and this one is known only as the tape shows it.
  const double usual = usual_plus_minus(Length::cm(entry.length)).cm();
  return {entry.colour, entry.length, std::sqrt(2 * usual * usual + entry.variance)};
}

std::vector<Proposal> propose(const Line& line, const Lore& lore, std::size_t most) {
  if (line.entries.size() > enough_entries) {
    Line part = line;
    part.entries.resize(enough_entries);
    part.to = std::min(line.to, enough_entries - 1);
    std::vector<Proposal> found = propose(part, lore, most);
    if (!found.empty()) return found;
  }
  std::vector<Proposal> found;
  for (std::size_t begin = line.from; begin < std::min(line.from + beginnings, line.to); ++begin) {
    for (std::size_t end = begin + 2; end <= std::min(line.to, begin + most_sections); ++end) {
      if (end == line.entries.size()) break;
      std::optional<Proposal> proposal = grown(line, begin, end, lore);
      if (proposal) found.push_back(std::move(*proposal));
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const Proposal& a, const Proposal& b) { return a.score > b.score; });
  std::vector<Proposal> kept;
  for (Proposal& proposal : found) {
    if (kept.size() == most) break;
    const bool known = std::any_of(kept.begin(), kept.end(),
                                   [&](const Proposal& other) { return same_sections(other.circle, proposal.circle); });
    if (!known) kept.push_back(std::move(proposal));
  }
  return kept;
}

}  // namespace ballchange::measuring
