#pragma once
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "measure/learn.hpp"
#include "project/project.hpp"

// The strands that `measure` learns from, wherever they come from.
namespace ballchange {

struct MeasuredStrands {
  std::vector<MeasuredStrand> all;
  std::vector<std::string> texts;  // each as a profile keeps it
  Unit kept_in = Unit::cm;         // what numbers without a unit are there
  Palette palette;                 // of all their colours; those known before come first
  std::set<std::string> written;   // each added by add_strand, however it was spelt
  std::vector<std::string> names;  // of each in `all`: "ball B's outside end"; empty: a strand that was told as one
};

// What lengths are told in. Strands given in stitches, with no yarn per stitch told, make a yarn reckoned in them.
[[nodiscard]] Measures strand_measures(const std::vector<std::string>& texts, const Options& options,
                                       const Common& common, const Yarn* known);

// Adds one that was measured from the end its ball is worked from; false where the same was added before, which tells
// nothing new. Throws Problem(content).
[[nodiscard]] bool add_strand(MeasuredStrands& strands, const std::string& text, std::string_view what,
                              const Measures& measures, const MatchOptions& match);
// One that a profile keeps, in its own unit: what stands there twice was measured of two balls that read the same.
// Throws Problem(content).
void add_kept_strand(MeasuredStrands& strands, const std::string& text, std::string_view what, const Measures& measures,
                     const MatchOptions& match);
// The readings of a project's balls and joins.
void add_project_readings(MeasuredStrands& strands, const OpenProject& open, const MatchOptions& match);
// Texts for those, which stand behind all others: in the order of the repeat, whichever end and direction each was read
// in. `backward`: those that run so.
void keep_project_readings(MeasuredStrands& strands, const Ruler& ruler, const std::vector<std::size_t>& backward);

}  // namespace ballchange
