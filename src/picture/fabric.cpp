#include "picture/fabric.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace ballchange {
namespace {

constexpr std::size_t kMostPatches = 100'000;
constexpr double kMostStitches = 4e6;
constexpr Length kHair = Length::cm(1e-7);  // no patch is made of a rounding

// Stitches that follow each other at one gauge.
struct Stretch {
  int row = 0;
  double from = 0, to = 0;  // stitches done
  Length used;              // where it begins
  Length stitch;
  [[nodiscard]] Length end() const { return used + (to - from) * stitch; }
};

// Calls `take` for every stretch of the work, foundation first.
template <class Take>
void each_stretch(const FabricPlan& plan, Take take) {
  assert(plan.stitches > 0 && plan.rows > 0 && !plan.gauge.empty());
  const double stitches = plan.stitches;
  if (plan.foundation > Length()) take(Stretch{0, 0, stitches, Length(), plan.foundation / stitches});
  Length used = plan.foundation;
  std::size_t next = 1;
  const auto row_begins_with = [&](int row) {
    while (next < plan.gauge.size() && plan.gauge[next].at.row < row) ++next;
  };
  for (int row = 1; row <= plan.rows; ++row) {
    row_begins_with(row);
    double done = 0;
    while (done < stitches) {
      const bool changes = next < plan.gauge.size() && plan.gauge[next].at.row == row;
      const double to = changes ? std::clamp<double>(plan.gauge[next].at.stitch, done, stitches) : stitches;
      const Stretch stretch{row, done, to, used, plan.gauge[next - 1].stitch};
      if (to > done) take(stretch);
      used = stretch.end();
      done = to;
      if (changes) ++next;
    }
    row_begins_with(row + 1);
    used += plan.gauge[next - 1].turn;
  }
}

// A colour from one point of the strand to another.
struct Run {
  ColourId colour = 0;
  Length from, to;
};

// All colours of the strand up to `end`, neighbours of one colour as one.
std::vector<Run> runs_of(const Repeat& repeat, const FabricPlan& plan, Length end) {
  std::vector<Run> runs;
  const auto add = [&](ColourId colour, Length from, Length to) {
    if (to - from < kHair) return;
    if (!runs.empty() && runs.back().colour == colour) {
      runs.back().to = to;
    } else {
      runs.push_back({colour, from, to});
    }
  };
  for (std::size_t i = 0; i < plan.yarn.size() && runs.size() <= kMostPatches; ++i) {
    const Length stop = i + 1 < plan.yarn.size() ? std::min(plan.yarn[i + 1].used, end) : end;
    Length at = plan.yarn[i].used;
    Spot spot = repeat.spot(plan.yarn[i].place);
    while (at < stop && runs.size() <= kMostPatches) {
      const Length to = std::min(at + spot.left, stop);
      add(repeat.sections()[spot.section].colour, at, to);
      at += spot.left;
      spot.section = (spot.section + 1) % repeat.size();
      spot.left = repeat.sections()[spot.section].length;
    }
  }
  return runs;
}

}  // namespace

OnRow where_used(const FabricPlan& plan, Length used) {
  OnRow place;
  bool found = false;
  each_stretch(plan, [&](const Stretch& stretch) {
    if (found) return;
    if (used < stretch.used) {  // at the turn before it
      found = true;
      return;
    }
    found = used < stretch.end();
    place = {stretch.row, std::min(stretch.from + (used - stretch.used) / stretch.stitch, stretch.to)};
  });
  return place;
}

Length used_at(const FabricPlan& plan, RowStitch at) {
  Length used;
  each_stretch(plan, [&](const Stretch& stretch) {
    if (stretch.row > at.row || (stretch.row == at.row && stretch.from > at.stitch)) return;
    const double done = stretch.row < at.row ? stretch.to : std::min<double>(at.stitch, stretch.to);
    used = stretch.used + (done - stretch.from) * stretch.stitch;
  });
  return used;
}

Length end_of(const FabricPlan& plan) {
  Length end;
  each_stretch(plan, [&](const Stretch& stretch) { end = stretch.end(); });
  return end;
}

bool runs_leftward(const FabricScene& scene, int row) {
  const bool to_and_fro = scene.working != Working::rounds;
  const bool leftward = !to_and_fro || row % 2 == 1;
  return leftward != scene.left_handed;
}

SheetBox on_sheet(const FabricScene& scene, const FabricBox& box) {
  const double left = runs_leftward(scene, box.row) ? scene.stitches - box.to : box.from;
  const Length width = (box.to - box.from) * scene.stitch_width;
  if (box.row == 0) {
    return {left * scene.stitch_width, scene.rows * scene.row_height, width, scene.foundation_height()};
  }
  return {left * scene.stitch_width, (scene.rows - box.row) * scene.row_height, width, scene.row_height};
}

std::optional<FabricScene> fabric_scene(const Repeat& repeat, const FabricPlan& plan) {
  if (double(plan.stitches) * plan.rows > kMostStitches) return std::nullopt;
  const std::vector<Run> runs = runs_of(repeat, plan, end_of(plan));
  if (runs.size() > kMostPatches) return std::nullopt;

  FabricScene scene;
  scene.colours = repeat.colours();
  scene.working = plan.working;
  scene.stitches = plan.stitches;
  scene.rows = plan.rows;
  scene.foundation = plan.foundation > Length();
  std::size_t next = 0;
  bool started = false;  // the patch of runs[next]
  each_stretch(plan, [&](const Stretch& stretch) {
    while (next < runs.size()) {
      const Run& run = runs[next];
      const Length from = std::max(run.from, stretch.used);
      const Length to = std::min(run.to, stretch.end());
      if (to - from > kHair) {
        if (!started) scene.patches.push_back({run.colour, {}});
        started = true;
        const auto done = [&](Length used) { return stretch.from + (used - stretch.used) / stretch.stitch; };
        const double right = to == stretch.end() ? stretch.to : done(to);
        scene.patches.back().boxes.push_back({stretch.row, done(from), right});
      }
      if (run.to > stretch.end()) break;
      ++next;
      started = false;
    }
  });
  return scene;
}

FabricColours::FabricColours(const FabricScene& scene) : scene_(scene), rows_(std::size_t(scene.rows) + 1) {
  for (const FabricPatch& patch : scene.patches) {
    for (const FabricBox& box : patch.boxes) rows_[std::size_t(box.row)].push_back({box.to, patch.colour});
  }
}

std::optional<ColourId> FabricColours::at(const OnRow& place) const {
  if (place.row < 0 || place.row > scene_.rows || place.done < 0 || place.done > scene_.stitches) return std::nullopt;
  const std::vector<Part>& row = rows_[std::size_t(place.row)];
  const auto part =
      std::upper_bound(row.begin(), row.end(), place.done, [](double done, const Part& p) { return done < p.to; });
  if (part != row.end()) return part->colour;
  return row.empty() ? std::nullopt : std::optional(row.back().colour);
}

std::optional<ColourId> FabricColours::on_sheet(Length x, Length y) const {
  if (x < Length() || x > scene_.width() || y < Length() || y > scene_.height()) return std::nullopt;
  const Length rows = scene_.rows * scene_.row_height;
  const int row = y >= rows ? 0 : scene_.rows - static_cast<int>(std::floor(y / scene_.row_height));
  const double across = x / scene_.stitch_width;
  return at({row, runs_leftward(scene_, row) ? scene_.stitches - across : across});
}

std::vector<ColourId> FabricColours::in(const SheetBox& part) const {
  constexpr int kAcross = 5, kDown = 12;
  std::vector<int> found(scene_.colours.size());
  int all = 0;
  for (int i = 0; i < kAcross; ++i) {
    for (int j = 0; j < kDown; ++j) {
      const auto colour =
          on_sheet(part.x + part.width * ((i + 0.5) / kAcross), part.y + part.height * ((j + 0.5) / kDown));
      if (!colour) continue;
      ++found[*colour];
      ++all;
    }
  }
  std::vector<ColourId> most;
  for (ColourId colour = 0; colour < found.size(); ++colour) {
    if (found[colour] * 3 >= all && found[colour] > 0) most.push_back(colour);
  }
  std::stable_sort(most.begin(), most.end(), [&](ColourId a, ColourId b) { return found[a] > found[b]; });
  if (most.size() > 2) most.resize(2);
  return most;
}

}  // namespace ballchange
