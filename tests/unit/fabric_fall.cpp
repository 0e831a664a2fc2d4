#include "fabric/fall.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <vector>

#include "base/random.hpp"

// How colours fall, against drawings made stitch by stitch.
namespace ballchange {
namespace {

// The place on the repeat, in cm, of the stitch in column x (from 0, from the left) of row r (from 1), the first stitch
// of the piece being at place 0. Rows run to the right first.
class Drawing {
 public:
  Drawing(const Colouring& yarn, int stitches) : yarn_(yarn), stitches_(stitches) {}

  void work(int rows) {
    for (int r = 0; r < rows; ++r) {
      std::vector<double> row(static_cast<std::size_t>(stitches_));
      const bool back = yarn_.working != Working::rounds && r % 2 == 1;
      for (int j = 0; j < stitches_; ++j) {
        row[static_cast<std::size_t>(back ? stitches_ - 1 - j : j)] = on_repeat(used_ + yarn_.stitch.cm() / 2);
        used_ += yarn_.stitch.cm();
      }
      used_ += yarn_.turn.cm();
      places_.push_back(row);
    }
  }
  [[nodiscard]] double at(int r, int x) const {
    return places_.at(static_cast<std::size_t>(r - 1)).at(static_cast<std::size_t>(x));
  }
  [[nodiscard]] double used() const { return used_; }
  [[nodiscard]] double on_repeat(double length) const { return std::fmod(length, yarn_.period.cm()); }
  // From one stitch to another on the repeat, the short way.
  [[nodiscard]] double step(double from, double to) const { return std::remainder(to - from, yarn_.period.cm()); }

 private:
  Colouring yarn_;
  int stitches_;
  double used_ = 0;
  std::vector<std::vector<double>> places_;
};

Colouring harbour(Working working = Working::rows, double turn = 0) {
  return {280_cm, 70_cm, 2_cm, Length::cm(turn), working};
}

Colouring any(Random& random) {
  Colouring yarn;
  yarn.period = Length::cm(60 + 400 * random.uniform());
  yarn.section = yarn.period / (2 + static_cast<double>(random.below(7)));
  yarn.stitch = Length::cm(0.8 + 2 * random.uniform());
  yarn.turn = Length::cm(3 * random.uniform());
  yarn.working = static_cast<Working>(random.below(3));
  return yarn;
}

// How often a colour comes round at one stitch over so many rows that run one way, by adding up its steps.
double rounds_at(const Drawing& drawing, int x, int rows, int step) {
  double moved = 0;
  for (int r = 1; r + step <= rows; r += step) moved += drawing.step(drawing.at(r, x), drawing.at(r + step, x));
  return moved;
}

TEST_CASE("74 stitches of 2 cm in rows, repeat 280: diamonds 35 rows tall, as in half of 144 stitches") {
  const Fall narrow = fall(harbour(), 74), wide = fall(harbour(), 144);
  CHECK(narrow.look == Look::argyle);
  CHECK(*narrow.rows == doctest::Approx(35).epsilon(1e-12));
  CHECK(*wide.rows == doctest::Approx(35).epsilon(1e-12));
  Drawing half(harbour(), 74), whole(harbour(), 144);
  half.work(140);
  whole.work(140);
  for (int r = 1; r <= 140; ++r) {
    for (int x = 0; x < 74; ++x) CHECK(std::abs(half.step(half.at(r, x), whole.at(r, x))) < 1e-6);
  }
  // Two diamonds, 70 rows, bring every stitch back to its colour, and nothing before that does.
  for (int rows = 1; rows <= 70; ++rows) {
    double worst = 0;
    for (int x = 0; x < 74; ++x) worst = std::max(worst, std::abs(half.step(half.at(1, x), half.at(1 + rows, x))));
    CAPTURE(rows);
    CHECK((worst < 1e-6) == (rows == 70));
  }
}

TEST_CASE("the drift is what the drawing moves by, one way in rounds and both ways where it is turned") {
  constexpr std::uint64_t seed = 61;
  Random random(seed);
  for (int n = 0; n < 400; ++n) {
    const Colouring yarn = any(random);
    const int stitches = 5 + static_cast<int>(random.below(150));
    CAPTURE(seed);
    CAPTURE(n);
    Drawing drawing(yarn, stitches);
    drawing.work(4);
    const Fall told = fall(yarn, stitches);
    const int x = static_cast<int>(random.below(static_cast<std::uint64_t>(stitches)));
    if (yarn.working == Working::rounds) {
      CHECK(std::abs(drawing.step(drawing.at(1, x), drawing.at(2, x)) - told.drift.cm()) < 1e-6);
    } else {
      CHECK(std::abs(std::remainder(drawing.at(3, x) - drawing.at(1, x) - 2 * told.drift.cm(), yarn.period.cm())) <
            1e-6);
      // The rows between run back: their places fall from left to right as the others' rise.
      CHECK(std::abs(std::remainder(drawing.at(1, x) + drawing.at(2, x) - drawing.at(1, 0) - drawing.at(2, 0),
                                    yarn.period.cm())) < 1e-6);
    }
  }
}

TEST_CASE("columns are where each stitch of a row that runs the same way stays nearest to its own place") {
  constexpr std::uint64_t seed = 62;
  Random random(seed);
  int seen = 0;
  for (int n = 0; n < 20'000; ++n) {
    const Colouring yarn = any(random);
    const int stitches = 40 + static_cast<int>(random.below(150));
    const Fall told = fall(yarn, stitches);
    if (told.row < yarn.period / 2 || std::abs(abs(told.drift) / yarn.stitch - 0.5) < 1e-6) continue;
    Drawing drawing(yarn, stitches);
    drawing.work(3);
    const int apart = yarn.working == Working::rounds ? 1 : 2;
    const double moved = std::abs(drawing.step(drawing.at(1, 0), drawing.at(1 + apart, 0))) / apart;
    CAPTURE(seed);
    CAPTURE(n);
    CHECK((told.look == Look::columns) == (moved < yarn.stitch.cm() / 2));
    seen += told.look == Look::columns ? 1 : 0;
  }
  CHECK(seen > 100);
}

TEST_CASE("the height of diamonds and swirls is how often a colour comes round at one stitch") {
  struct Row {
    Working working;
    double turn;
    int stitches;
    Look look;
    double rows;
  };
  const Row rows[] = {
      {Working::rows, 0, 74, Look::argyle, 35},   {Working::rows, 0, 66, Look::argyle, 35},
      {Working::rows, 2, 73, Look::argyle, 35},   {Working::turned_rounds, 4, 76, Look::argyle, 17.5},
      {Working::rounds, 0, 144, Look::swirl, 35}, {Working::rounds, 0, 138, Look::swirl, 70},
      {Working::rows, 0, 14, Look::stripes, 10},  {Working::rounds, 0, 28, Look::stripes, 5},
  };
  for (const Row& row : rows) {
    CAPTURE(row.stitches);
    CAPTURE(row.rows);
    const Colouring yarn = harbour(row.working, row.turn);
    const Fall told = fall(yarn, row.stitches);
    CHECK(told.look == row.look);
    CHECK(*told.rows == doctest::Approx(row.rows).epsilon(1e-9));
    Drawing drawing(yarn, row.stitches);
    drawing.work(701);
    const int apart = row.working == Working::rounds ? 1 : 2;
    CHECK(std::abs(rounds_at(drawing, row.stitches / 2, 701, apart)) / yarn.period.cm() ==
          doctest::Approx(700 / row.rows).epsilon(1e-6));
  }
}

TEST_CASE("a look is forgiven up to where more or less yarn a row first changes it") {
  constexpr std::uint64_t seed = 63;
  Random random(seed);
  for (int n = 0; n < 500; ++n) {
    const Colouring yarn = any(random);
    const int stitches = 5 + static_cast<int>(random.below(150));
    const Fall told = fall(yarn, stitches);
    CAPTURE(seed);
    CAPTURE(n);
    // The same change of every row, made by a longer or shorter turn.
    const auto look_with = [&](double more) {
      Colouring changed = yarn;
      changed.turn += told.row * more;
      return fall(changed, stitches).look;
    };
    double first = 0;
    constexpr double step = 1e-4;
    while (first < 0.3 && look_with(first) == told.look && look_with(-first) == told.look) first += step;
    if (first < 0.3) {
      CHECK(told.forgives <= first + 1e-9);
      CHECK(told.forgives >= first - step - 1e-9);
    } else {
      CHECK(told.forgives >= 0.3 - step);
    }
  }
  // 148 cm a row, 8 past half the repeat: columns come at 141, the last readable diamonds at 157.5.
  CHECK(fall(harbour(), 74).forgives == doctest::Approx(7.0 / 148).epsilon(1e-6));
  CHECK(*rows_with(harbour(), 74, 0.01) == doctest::Approx(280 / 9.48).epsilon(1e-9));
  CHECK(*rows_with(harbour(), 74, -0.01) == doctest::Approx(280 / 6.52).epsilon(1e-9));
  CHECK(!rows_with(harbour(), 74, -0.05));
}

TEST_CASE("widths obey the multiple, and what forgives most comes first") {
  const std::vector<Fall> found = falls(harbour(), 60, 120, {4, 1});
  CHECK(found.size() == 15);  // 61, 65 ... 117
  CHECK(std::all_of(found.begin(), found.end(), [](const Fall& one) { return one.stitches % 4 == 1; }));
  CHECK(
      std::is_sorted(found.begin(), found.end(), [](const Fall& a, const Fall& b) { return a.forgives > b.forgives; }));
  CHECK(falls(harbour(), 1, 9, {1, 7}).size() == 3);  // the extra ones are always there
}

TEST_CASE("for a wanted height the widths nearest to it are found") {
  const auto stitches = [](const std::vector<Fall>& found) {
    std::multiset<int> widths;
    for (const Fall& one : found) widths.insert(one.stitches);
    return widths;
  };
  // W = n 140 +- 8: 148, 132, 288, 272 cm.
  CHECK(stitches(widths_for(harbour(), Look::argyle, 35, 60, 150, {})) == std::multiset<int>{66, 74, 136, 144});
  CHECK(stitches(widths_for(harbour(), Look::argyle, 35, 60, 120, {4, 1})) == std::multiset<int>{65, 73});
  CHECK(stitches(widths_for(harbour(), Look::columns, {}, 60, 150, {})) == std::multiset<int>{70, 140});
  CHECK(stitches(widths_for(harbour(Working::rounds), Look::columns, {}, 60, 150, {})) == std::multiset<int>{140});
  CHECK(stitches(widths_for(harbour(Working::rounds), Look::swirl, 35, 60, 150, {})) == std::multiset<int>{136, 144});
  CHECK(stitches(widths_for(harbour(), Look::stripes, 10, 1, 60, {})) == std::multiset<int>{14});
  CHECK(widths_for(harbour(), Look::argyle, 35, 80, 120, {}).empty());
  for (int low = 60; low < 100; ++low) {  // none of the widths is nearer than the first
    const auto found = widths_for(harbour(), Look::argyle, 30, low, low + 60, {});
    for (int width = low; width <= low + 60; ++width) {
      const Fall one = fall(harbour(), width);
      if (one.look != Look::argyle || found.empty()) continue;
      CHECK(std::abs(std::log(*found.front().rows / 30)) <= std::abs(std::log(*one.rows / 30)) + 1e-9);
    }
  }
}

TEST_CASE("a ring closes where the next row would be the first again") {
  constexpr std::uint64_t seed = 64;
  Random random(seed);
  int seen = 0;
  for (int n = 0; n < 60; ++n) {
    const Colouring yarn = any(random);
    const int stitches = 10 + static_cast<int>(random.below(80));
    CAPTURE(seed);
    CAPTURE(n);
    Drawing drawing(yarn, stitches);
    drawing.work(201);
    std::vector<int> drawn, told;
    for (int rows = 1; rows <= 200; ++rows) {
      double worst = 0;
      for (int x = 0; x < stitches; ++x) {
        worst = std::max(worst, std::abs(drawing.step(drawing.at(1, x), drawing.at(1 + rows, x))));
      }
      if (worst <= yarn.stitch.cm() && (yarn.working == Working::rounds || rows % 2 == 0)) drawn.push_back(rows);
    }
    for (const Closing& closing : closings(yarn, stitches, 200, yarn.stitch)) {
      told.push_back(closing.rows);
      const double miss = drawing.step(drawing.at(1, 0), drawing.at(1 + closing.rows, 0));
      CHECK(std::abs(miss - closing.miss.cm()) < 1e-6);
    }
    CHECK(told == drawn);
    seen += static_cast<int>(drawn.size());
  }
  CHECK(seen > 50);
}

TEST_CASE("where no count closes a ring the nearest one is told") {
  // Two rows of 60 stitches take 216 of a repeat of 190: they miss by 26, four by 52, six by 78, eight by -86.
  const Colouring rows{190_cm, 30_cm, Length::cm(1.8), 0_cm, Working::rows};
  CHECK_FALSE(nearest_closing(rows, 60, 1).has_value());
  const auto nearest = nearest_closing(rows, 60, 8);
  REQUIRE(nearest.has_value());
  CHECK(nearest->rows == 2);
  CHECK(nearest->miss.cm() == doctest::Approx(26).epsilon(1e-9));
  // Seven times 26 is 8 short of the repeat: 14 rows.
  CHECK(nearest_closing(rows, 60, 20)->rows == 14);
  CHECK(nearest_closing(rows, 60, 20)->miss.cm() == doctest::Approx(-8).epsilon(1e-9));
}

TEST_CASE("where to begin, and what to cut off between panels") {
  // The loose end at 250; 30 of foundation would begin the work at 0, and 26 is wanted.
  CHECK(before_foundation(280_cm, 250_cm, 30_cm, 26_cm).cm() == doctest::Approx(26).epsilon(1e-12));
  CHECK(before_foundation(280_cm, 250_cm, 30_cm, 0_cm).cm() == doctest::Approx(0).epsilon(1e-12));
  CHECK(before_foundation(280_cm, 250_cm, 30_cm, 270_cm).cm() == doctest::Approx(270).epsilon(1e-12));
  constexpr std::uint64_t seed = 65;
  Random random(seed);
  for (int n = 0; n < 300; ++n) {
    const Colouring yarn = any(random);
    const int stitches = 10 + static_cast<int>(random.below(80)), rows = 1 + static_cast<int>(random.below(100));
    const double foundation = 100 * random.uniform();
    CAPTURE(seed);
    CAPTURE(n);
    Drawing drawing(yarn, stitches);
    drawing.work(rows);
    const Length cut = between_panels(yarn, stitches, rows, Length::cm(foundation));
    CHECK(cut >= Length());
    CHECK(cut < yarn.period);
    CHECK(std::abs(std::remainder(foundation + drawing.used() + cut.cm(), yarn.period.cm())) < 1e-6);
  }
}

}  // namespace
}  // namespace ballchange
