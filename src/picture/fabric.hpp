#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "fabric/work.hpp"
#include "yarn/repeat.hpp"

// A piece as it lies on the table, right side up, row 1 at the bottom: which stretch of the yarn lies where. Sizes of
// the work are cm of fabric. Model: DEVELOPERS.md, "How colours fall"; the yarn of stitch s of a row runs from (s - 1)
// w to s w, and that of the turn lies at the edge and isn't seen.
namespace ballchange {

// From a stitch on (`stitch` of that row are done) the work takes so much yarn a stitch, > 0, and a turn.
struct GaugeFrom {
  RowStitch at;
  Length stitch, turn;
};

// From so much yarn used on the strand runs on at this place of the repeat.
struct YarnFrom {
  Length used, place;
};

struct FabricPlan {
  Working working = Working::rows;
  int stitches = 1, rows = 1;
  Length foundation;             // yarn in it
  std::vector<GaugeFrom> gauge;  // in the order of the work, the first at row 1, stitch 0
  std::vector<YarnFrom> yarn;    // the first where nothing is used, each at or after the one before it
};

// `done` stitches of a row are done, a share of one too; row 0 is the foundation.
struct OnRow {
  int row = 0;
  double done = 0;
};
// Where so much yarn is used; at a turn, the end of its row. Past the last row its end.
[[nodiscard]] OnRow where_used(const FabricPlan& plan, Length used);
// The other way round: what is used where a stitch is done.
[[nodiscard]] Length used_at(const FabricPlan& plan, RowStitch at);
[[nodiscard]] Length end_of(const FabricPlan& plan);  // yarn in it, to its last stitch

// Part of a row, in the order it is worked.
struct FabricBox {
  int row = 0;
  double from = 0, to = 0;  // stitches done
};

// One section of the yarn as far as it shows; one shape.
struct FabricPatch {
  ColourId colour = 0;
  std::vector<FabricBox> boxes;
};

struct JoinMark {
  OnRow at;
  std::string name;        // of the ball it brings in; empty: it is thought of
  std::string shift;       // "+3 cm", what it is out of step; empty: nothing, or not known
  bool knot_left = false;  // no join: the knot was left as it was tied
  [[nodiscard]] std::string label() const { return name + (name.empty() || shift.empty() ? "" : " ") + shift; }
};
struct BallMark {
  OnRow from;
  std::string label;  // empty: nobody knows yet which ball it will be
};

struct FabricScene {
  std::vector<Colour> colours;
  Working working = Working::rows;
  int stitches = 1, rows = 1;
  bool foundation = false;
  Length stitch_width, row_height;  // of fabric
  bool left_handed = false;
  std::vector<FabricPatch> patches;  // in the order of the work
  std::vector<JoinMark> joins;
  std::vector<BallMark> balls;  // in the order of the work
  std::optional<OnRow> done;    // so far it is worked; without it all is as it will be

  [[nodiscard]] bool all_done() const { return !done || (done->row >= rows && done->done >= stitches); }
  [[nodiscard]] Length width() const { return stitches * stitch_width; }
  [[nodiscard]] Length foundation_height() const { return foundation ? row_height / 2 : Length(); }
  [[nodiscard]] Length height() const { return rows * row_height + foundation_height(); }
};

// Where a part of a row lies on the sheet, from its upper left corner.
struct SheetBox {
  Length x, y, width, height;
};
[[nodiscard]] SheetBox on_sheet(const FabricScene& scene, const FabricBox& box);
// Whether the row is worked from right to left: the first is by the right hand, and all rounds are; turned work goes to
// and fro, and a foundation that is turned on runs against the first row.
[[nodiscard]] bool runs_leftward(const FabricScene& scene, int row);

// The colours laid out by `repeat`, which runs as the work does: mirrored for a ball that runs backward. Nothing where
// there would be more patches than a picture can show, 100,000, or stitches past 4,000,000. Sizes, marks and `done` are
// left to be filled in; plan.stitches, rows > 0: asserted.
[[nodiscard]] std::optional<FabricScene> fabric_scene(const Repeat& repeat, const FabricPlan& plan);

// The colour a point of the piece has.
class FabricColours {
 public:
  explicit FabricColours(const FabricScene& scene);  // which must outlive it
  // In that row (0: the foundation), after so many stitches. Nothing outside of it.
  [[nodiscard]] std::optional<ColourId> at(const OnRow& place) const;
  // On the sheet, from its upper left corner.
  [[nodiscard]] std::optional<ColourId> on_sheet(Length x, Length y) const;
  // Those that fill a third of a part of the sheet or more, most first, at most two.
  [[nodiscard]] std::vector<ColourId> in(const SheetBox& part) const;

 private:
  struct Part {
    double to = 0;
    ColourId colour = 0;
  };
  const FabricScene& scene_;
  std::vector<std::vector<Part>> rows_;
};

}  // namespace ballchange
