#pragma once
#include "match/density.hpp"

// Runs of sections that are read under one written name, with the chance of being read so. The sum over all ways and
// the search for the best way both walk through these.
namespace ballchange::matching {

// The reading as the matcher needs it, from the loose end inward.
struct Observed {
  End end = End::new_end;
  bool bar_at_loose_end = false, bar_at_open_end = false;
  std::vector<Measured> entries;

  [[nodiscard]] bool sees_a_change() const { return entries.size() > 1 || bar_at_loose_end || bar_at_open_end; }
  // From the loose end to a change that is seen, nothing else.
  [[nodiscard]] bool one_entry() const { return entries.size() == 1 && !bar_at_loose_end; }
};
void observe(const Reading& reading, const MatchOptions& options, Observed& out);

struct Run {
  std::size_t first = 0;  // section, in working order
  std::size_t count = 0;
  std::size_t boundary = 0;  // the change on the side of the loose end
  double weight = 0;         // of names and of what was overlooked; lengths not counted
  Block whole;               // all of its sections
  Block cut, others;         // the section furthest towards the loose end, and the rest
};

// A run stops being followed where its chance falls below this.
inline constexpr double faint = 1e-18;

// 1 - (q + (1-q) w): the section is seen and written otherwise, so that a run ends before it.
inline double otherwise(const Side& side, std::size_t section, ColourId written) {
  return 1 - side.rest[side.at(section, written)];
}

// The runs that lie between the change `boundary` and the loose end, shortest first. `never_overlooked`: the section at
// the loose end of a new end. `visit` answers whether a longer run is worth looking at.
template <typename Visit>
void runs_from(const Side& side, End end, std::size_t boundary, ColourId written, bool never_overlooked, Visit visit) {
  const bool new_end = end == End::new_end;
  double reach = 1;
  Run run;
  std::size_t section = new_end ? side.previous(boundary) : boundary;
  run.first = section;
  while (reach >= faint) {
    const std::size_t cell = side.at(section, written);
    run.others = run.whole;
    run.cut = {side.mean[section], side.variance[section]};
    run.whole = {run.others.mean + run.cut.mean, run.others.variance + run.cut.variance};
    ++run.count;
    if (new_end) {
      run.first = section;
      run.boundary = section;
      run.weight = reach * (never_overlooked ? side.name[cell] : side.first[cell]);
      reach *= side.rest[cell];
      section = side.previous(section);
    } else {
      run.boundary = side.next(section);
      reach *= run.count == 1 ? side.first[cell] : side.rest[cell];
      run.weight = reach;
      section = side.next(section);
    }
    if (!visit(run)) return;
  }
}

// The runs at the open end whose first section is `from`, with the chance that they end there.
template <typename Visit>
void runs_at_open_end(const Side& side, End end, std::size_t from, ColourId written, bool never_overlooked,
                      Visit visit) {
  const bool new_end = end == End::new_end;
  const std::size_t cell = side.at(from, written);
  double reach = never_overlooked ? side.name[cell] : side.first[cell];
  if (!new_end) reach *= side.before[cell];
  Run run;
  run.first = from;
  std::size_t section = from;
  while (reach >= faint) {
    const std::size_t after = side.next(section);
    run.whole.mean += side.mean[section];
    run.whole.variance += side.variance[section];
    ++run.count;
    run.boundary = new_end ? from : after;
    run.weight = new_end ? reach * otherwise(side, after, written) : reach;
    if (!visit(run)) return;
    reach *= side.rest[side.at(after, written)];
    section = after;
  }
}

}  // namespace ballchange::matching
