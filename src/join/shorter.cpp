#include "join/shorter.hpp"

namespace ballchange::joining {
namespace {

// As far from the change nearest to the loose end as it was: what was measured stays so.
Length moved(const Repeat& written, const Repeat& shorter, const Candidate& candidate) {
  const auto along = [&](Length place, const Repeat& repeat) {
    return candidate.direction == Direction::forward ? place : wrap(-place, repeat.total());
  };
  const auto start = [&](const Repeat& repeat) {
    const std::size_t boundary = candidate.boundary % repeat.size();
    return candidate.direction == Direction::forward ? repeat.start(boundary) : repeat.mirrored().start(boundary);
  };
  const Length from_change = nearest(along(candidate.place, written) - start(written), written.total());
  return wrap(along(start(shorter) + from_change, shorter), shorter.total());
}

}  // namespace

Strand on_shorter(const Repeat& written, const Repeat& shorter, const Strand& strand) {
  Strand told = strand;
  if (shorter.size() == written.size()) return told;
  for (Candidate& candidate : told.placing.candidates) {
    candidate.place = moved(written, shorter, candidate);
    candidate.boundary %= shorter.size();
  }
  if (!told.placing.candidates.empty()) told.placing.place = told.placing.best().place;
  for (Explained& explained : told.placing.why) {
    for (std::size_t& section : explained.sections) section %= shorter.size();
  }
  return told;
}

}  // namespace ballchange::joining
