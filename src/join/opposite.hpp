#pragma once
#include <optional>

#include "reading/reading.hpp"

namespace ballchange::joining {

// Two strands on which a colour's neighbour lies on the wrong side: before it in the work on the old, after it on the
// new.
struct Opposite {
  ColourId colour = 0, neighbour = 0;
  bool same_beyond = false;  // beyond the neighbour both go on with one colour too; otherwise one was not read so far
};

// By colours alone, for the one the old strand ends in; nothing where the neighbours differ, or what lies beyond them.
[[nodiscard]] std::optional<Opposite> opposite_ways(const Reading& old_reading, const Reading& new_reading);

}  // namespace ballchange::joining
