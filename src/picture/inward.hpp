#pragma once
#include <cstddef>
#include <vector>

#include "join/advice.hpp"
#include "yarn/repeat.hpp"

// A strand whose place is known, walked from its loose end inward: what was read, then what the repeat has next.
namespace ballchange {

class Inward {
 public:
  // `strand` is not without candidates; the repeat must outlive this.
  Inward(const Repeat& repeat, const Strand& strand);

  [[nodiscard]] std::size_t next(std::size_t section) const;
  [[nodiscard]] const Section& section(std::size_t k) const { return repeat_.sections()[k]; }
  // Those read under one name, the one nearest to the loose end first. Not empty where `why` has any.
  [[nodiscard]] std::vector<std::size_t> sections(const Explained& why) const;

 private:
  const Repeat& repeat_;
  bool old_;
  bool descending_;
};

// Nothing tells how far into its section the loose end lies.
[[nodiscard]] bool knows_section_only(const Placing& placing);

// How that entry was explained; null where it was not.
[[nodiscard]] const Explained* explained(const Placing& placing, std::size_t entry);

// The colours passed before the `changes`-th change: as they were read, then as the repeat has them. Fewer where no
// more is known; `repeat` may be null.
[[nodiscard]] std::vector<ColourId> colours_inward(const Repeat* repeat, const Strand& strand, std::size_t changes);

}  // namespace ballchange
