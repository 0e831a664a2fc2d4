#include "picture/fabric.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "base/random.hpp"
#include "unit/orchard.hpp"

// Pieces as they lie on the table, against the slow way: one stitch after the other.
namespace ballchange {
namespace {

// A sheet of stitches, filled as hands do it: the yarn is counted stitch by stitch, and each lies left of the one
// before it, or right of it.
class ByStitch {
 public:
  ByStitch(const Repeat& repeat, const FabricPlan& plan, bool left_handed)
      : repeat_(repeat), plan_(plan), left_handed_(left_handed) {
    if (plan.foundation > Length()) {
      const bool leftward = plan.working == Working::rounds;
      work(0, leftward, plan.foundation / plan.stitches, Length(), 0);
    }
    for (int row = 1; row <= plan.rows; ++row) {
      const bool leftward = plan.working == Working::rounds || row % 2 == 1;
      work(row, leftward, {}, {}, row);
    }
  }
  // Column from the left, row from 1 at the bottom; the foundation is row 0.
  [[nodiscard]] ColourId at(int row, int column) const { return sheet_.at(std::size_t(row)).at(std::size_t(column)); }

 private:
  [[nodiscard]] const GaugeFrom& gauge(int row, int done) const {
    std::size_t found = 0;
    for (std::size_t i = 0; i < plan_.gauge.size(); ++i) {
      const RowStitch& from = plan_.gauge[i].at;
      if (from.row < row || (from.row == row && from.stitch <= done)) found = i;
    }
    return plan_.gauge[found];
  }
  [[nodiscard]] ColourId colour(Length used) const {
    std::size_t strand = 0;
    while (strand + 1 < plan_.yarn.size() && plan_.yarn[strand + 1].used <= used) ++strand;
    const Length place = plan_.yarn[strand].place + (used - plan_.yarn[strand].used);
    return repeat_.sections()[repeat_.spot(place).section].colour;
  }
  void work(int row, bool leftward, Length stitch, Length turn, int gauge_row) {
    if (sheet_.size() <= std::size_t(row)) sheet_.resize(std::size_t(row) + 1);
    auto& cells = sheet_[std::size_t(row)];
    cells.resize(std::size_t(plan_.stitches));
    for (int s = 0; s < plan_.stitches; ++s) {
      if (gauge_row > 0) stitch = gauge(gauge_row, s).stitch;
      const int column = leftward != left_handed_ ? plan_.stitches - 1 - s : s;
      cells[std::size_t(column)] = colour(used_ + stitch / 2);
      used_ += stitch;
    }
    if (gauge_row > 0) turn = gauge(gauge_row, plan_.stitches).turn;
    used_ += turn;
  }

  const Repeat& repeat_;
  const FabricPlan& plan_;
  bool left_handed_;
  Length used_;
  std::vector<std::vector<ColourId>> sheet_;
};

Repeat any_repeat(Random& random) {
  const std::size_t sections = 2 + random.below(6);
  std::vector<Colour> colours;
  std::vector<Section> list;
  for (std::size_t k = 0; k < sections; ++k) {
    colours.push_back({std::string(1, char('a' + k)), std::nullopt});
    list.push_back({k, Length::cm(1 + 80 * random.uniform()), 1_cm});
  }
  return {colours, list};
}

FabricPlan any_plan(Random& random) {
  FabricPlan plan;
  plan.working = std::vector{Working::rows, Working::rounds, Working::turned_rounds}[random.below(3)];
  plan.stitches = 1 + int(random.below(40));
  plan.rows = 1 + int(random.below(30));
  plan.foundation = random.below(3) == 0 ? Length() : Length::cm(plan.stitches * (0.5 + random.uniform()));
  const auto stitch = [&] { return Length::cm(0.5 + 2.5 * random.uniform()); };
  const auto turn = [&] { return Length::cm(random.below(2) == 0 ? 0 : 4 * random.uniform()); };
  plan.gauge.push_back({{1, 0}, stitch(), turn()});
  for (int row = 1; row <= plan.rows; ++row) {
    if (random.below(8) != 0) continue;
    plan.gauge.push_back({{row, int(random.below(std::size_t(plan.stitches) + 1))}, stitch(), turn()});
  }
  Length used;
  while (used < Length::cm(3.0 * plan.stitches * plan.rows)) {
    plan.yarn.push_back({used, Length::cm(1000 * random.uniform())});
    used += Length::cm(50 + 1500 * random.uniform());
  }
  return plan;
}

}  // namespace

TEST_CASE("each stitch has the colour that counting one after the other gives it") {
  constexpr std::uint64_t seed = 20261126;
  Random random(seed);
  for (int piece = 0; piece < 300; ++piece) {
    CAPTURE(seed);
    CAPTURE(piece);
    const Repeat repeat = any_repeat(random);
    const FabricPlan plan = any_plan(random);
    auto scene = fabric_scene(repeat, plan);
    REQUIRE(scene);
    scene->stitch_width = 0.5_cm;
    scene->row_height = 0.4_cm;
    scene->left_handed = random.below(2) == 0;
    const ByStitch slow(repeat, plan, scene->left_handed);
    const FabricColours colours(*scene);
    int wrong = 0;
    for (int row = scene->foundation ? 0 : 1; row <= plan.rows; ++row) {
      const Length y =
          row == 0 ? scene->height() - scene->foundation_height() / 2 : (plan.rows - row + 0.5) * scene->row_height;
      for (int column = 0; column < plan.stitches; ++column) {
        if (colours.on_sheet((column + 0.5) * scene->stitch_width, y) != slow.at(row, column)) ++wrong;
      }
    }
    CHECK(wrong == 0);
  }
}

TEST_CASE("a section is one shape however many rows it lies in, and shapes cover the piece once") {
  // Orchard: plum 92 cm, sand 11, rust 80 ...; 20 stitches of 2 cm and a turn of 1 cm: 41 cm a row.
  FabricPlan plan{Working::rows, 20, 10, 40_cm, {{{1, 0}, 2_cm, 1_cm}}, {{0_cm, 0_cm}}};
  const auto scene = fabric_scene(orchard().repeat, plan);
  REQUIRE(scene);
  const FabricPatch& plum = scene->patches.front();  // 40 of foundation, 40 of row 1, the turn, 11 of row 2
  REQUIRE(plum.boxes.size() == 3);
  CHECK(plum.boxes[0].row == 0);
  CHECK(plum.boxes[1].to == 20);
  CHECK(plum.boxes[2].row == 2);
  CHECK(plum.boxes[2].to == doctest::Approx(5.5).epsilon(1e-9));
  double stitches = 0;
  for (const FabricPatch& patch : scene->patches) {
    for (const FabricBox& box : patch.boxes) stitches += box.to - box.from;
  }
  CHECK(stitches == doctest::Approx(20 * 11).epsilon(1e-9));
}

TEST_CASE("yarn used is found again in the work, at a turn as the end of its row") {
  const FabricPlan plan{Working::rows, 20, 10, 40_cm, {{{1, 0}, 2_cm, 1_cm}, {{3, 10}, 1_cm, 3_cm}}, {{0_cm, 0_cm}}};
  struct Case {
    Length used;
    int row;
    double done;
  };
  const std::vector<Case> cases{
      {0_cm, 0, 0},    {20_cm, 0, 10},  {40_cm, 1, 0},   {59_cm, 1, 9.5}, {80.5_cm, 1, 20},  {81_cm, 2, 0},
      {142_cm, 3, 10}, {147_cm, 3, 15}, {153_cm, 3, 20}, {155_cm, 4, 0},  {9999_cm, 10, 20},
  };
  for (const Case& c : cases) {
    CAPTURE(c.used.cm());
    const OnRow found = where_used(plan, c.used);
    CHECK(found.row == c.row);
    CHECK(found.done == doctest::Approx(c.done).epsilon(1e-9));
  }
}

TEST_CASE("a shift moves the picture sideways in rounds, and halves of a turned one opposite ways") {
  const auto sheet = [](Working working, Length shift) {
    const FabricPlan plan{working, 138, 4, 0_cm, {{{1, 0}, 2_cm, 0_cm}}, {{0_cm, shift}}};  // 276 cm a row: one repeat
    auto scene = fabric_scene(orchard().repeat, plan);
    scene->stitch_width = scene->row_height = 1_cm;
    return *scene;
  };
  const FabricScene rounds = sheet(Working::rounds, 0_cm), moved = sheet(Working::rounds, 20_cm);
  const FabricScene rows = sheet(Working::rows, 0_cm), turned = sheet(Working::rows, 20_cm);
  const FabricColours a(rounds), b(moved), c(rows), d(turned);
  for (int x = 10; x < 128; ++x) {
    const Length at = Length::cm(x + 0.5);
    CHECK(a.on_sheet(at, 1.5_cm) == b.on_sheet(at + 10_cm, 1.5_cm));  // worked leftward: later yarn lies further left
    CHECK(c.on_sheet(at, 3.5_cm) == d.on_sheet(at + 10_cm, 3.5_cm));
    CHECK(c.on_sheet(at, 2.5_cm) == d.on_sheet(at - 10_cm, 2.5_cm));
  }
}

TEST_CASE("a piece of more shapes than anybody can see is not drawn") {
  const Repeat fine({{"a", {}}, {"b", {}}}, {{0, 0.5_cm, 0.1_cm}, {1, 0.5_cm, 0.1_cm}});
  const FabricPlan plan{Working::rows, 200, 1000, 0_cm, {{{1, 0}, 2_cm, 0_cm}}, {{0_cm, 0_cm}}};
  CHECK_FALSE(fabric_scene(fine, plan));
}

}  // namespace ballchange
