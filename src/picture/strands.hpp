#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/measure.hpp"
#include "join/advice.hpp"
#include "yarn/repeat.hpp"

// Both strands of a join side by side, to scale: a scene in centimetres that knows no terminal and no file. The axis
// runs in working order, from the work at the left to the new ball at the right. The strands lie as they will be
// joined, so that colours in step stand above each other and the overlap is shared.
namespace ballchange {

enum class Evidence {
  seen,     // as the reading shows it
  foretold  // beyond the reading, as the repeat has it
};

struct StrandPart {
  Length from, to;  // on the axis, from < to
  ColourId colour = 0;
  Evidence evidence = Evidence::seen;
  bool starts_here = false;  // a change of colour at `from`; otherwise the piece goes on from the one before
  Length doubt = {};         // nine in ten such changes lie within so much of `from`, measured from the loose end
};

struct StrandPicture {
  End end = End::old_end;
  std::vector<StrandPart> pieces;  // from left to right, without gaps; may reach beyond the scene
  Length loose_end;
  Length cut;                  // the kept strand's end; equals loose_end when nothing is cut off
  std::optional<Length> hook;  // old strand only
  Length cut_doubt = {};       // nine in ten cuts by the mark fall within so much of `cut`
  bool ends = false;           // an offcut, cut at its far end too: the strand goes no further than its pieces
};

// A stretch of the axis that is left out: sections nobody measured, all to be cut off the new end.
struct LeftOut {
  Length from, to;
};

// From one point of the axis to another.
struct FitSpan {
  Length from, to;
};

struct StrandsScene {
  std::vector<Colour> colours;
  StrandPicture old_strand, new_strand;
  Length overlap_from, overlap_to;  // the kept strands lie along each other here; alike where they don't
  Length left, right;               // what is worth showing
  std::optional<LeftOut> left_out;  // no piece lies in it, and none of the old strand before it
  std::optional<Length> knot;       // that is left as it is
  std::optional<FitSpan> fit;       // between the two changes that the dry fit is told by
};

// What makes the picture doubtful: the tape, and how far one ball's repeat differs from another's, a share.
struct Blur {
  Tape tape = {};
  double ball_plus_minus = 0;
};

// Nothing where how much is cut off is not known, where the old end's mark lies beyond the sections that were read, and
// where there would be more sections than anybody could tell apart. `repeat` may be null: then only what was read is
// shown.
[[nodiscard]] std::optional<StrandsScene> strands_scene(const std::vector<Colour>& colours, const Repeat* repeat,
                                                        const Strand& old_strand, const Strand& new_strand,
                                                        const Join& join, const Blur& blur = {});

}  // namespace ballchange
