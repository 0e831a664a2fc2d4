#include "yarn/repeat.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "base/random.hpp"
#include "yarn/yarn.hpp"

namespace ballchange {
namespace {

struct Stretch {
  ColourId colour;
  double cm;
};
Repeat repeat_of(const std::vector<Stretch>& stretches, double plus_minus = 0) {
  std::vector<Colour> colours;
  for (const char* name : {"plum", "sand", "rust", "moss", "navy", "grey"}) colours.push_back({name, std::nullopt});
  std::vector<Section> sections;
  for (const Stretch& s : stretches) sections.push_back({s.colour, Length::cm(s.cm), Length::cm(plus_minus)});
  return {colours, sections};
}
Repeat plain() { return repeat_of({{0, 92}, {1, 11}, {2, 80}, {3, 14}, {4, 70}, {5, 9}}); }

TEST_CASE("a repeat knows where its sections start and how long it is") {
  const Repeat repeat = plain();
  CHECK(repeat.size() == 6);
  CHECK(repeat.total().cm() == 276);
  CHECK(repeat.start(0).cm() == 0);
  CHECK(repeat.start(2).cm() == 103);
  CHECK(repeat.name_of(3) == "moss");
}

TEST_CASE("a place is told as so far into a section; one on a change belongs to what starts there") {
  struct Case {
    double place;
    std::size_t section;
    double into;
    double left;
  };
  for (const Case& c : {Case{0, 0, 0, 92}, Case{77, 0, 77, 15}, Case{92, 1, 0, 11}, Case{275, 5, 8, 1},
                        Case{276, 0, 0, 92}, Case{-1, 5, 8, 1}, Case{276 * 3 + 133, 2, 30, 50}}) {
    CAPTURE(c.place);
    const Spot spot = plain().spot(Length::cm(c.place));
    CHECK(spot.section == c.section);
    CHECK(std::abs(spot.into.cm() - c.into) < 1e-9);
    CHECK(std::abs(spot.left.cm() - c.left) < 1e-9);
  }
}

TEST_CASE("on the mirrored repeat place p is total - p") {
  const Repeat repeat = plain();
  const Repeat mirrored = repeat.mirrored();
  CHECK(mirrored.total() == repeat.total());
  for (double p = 0.5; p < 276; p += 1) {
    CAPTURE(p);
    CHECK(mirrored.name_of(mirrored.spot(repeat.total() - Length::cm(p)).section) ==
          repeat.name_of(repeat.spot(Length::cm(p)).section));
  }
}

TEST_CASE("a repeat whose colours run the other way elsewhere is directional") {
  CHECK_FALSE(mirror_axis(plain()));
  CHECK_FALSE(mirrors_exactly(plain()));
}

TEST_CASE("read about its axis an exactly symmetric repeat looks the same") {
  const Repeat repeat = repeat_of({{0, 40}, {1, 10}, {2, 30}, {3, 22}, {2, 30}, {1, 10}});
  REQUIRE(mirror_axis(repeat));
  CHECK(mirrors_exactly(repeat));
  // By hand: plum's middle, place 20, is on the axis, so D = 40; moss's, place 91, too: 182 - 142 = 40.
  CHECK(std::abs(mirror_axis(repeat)->cm() - 40) < 1e-9);
  for (double p = 0.25; p < 142; p += 0.5) {
    CAPTURE(p);
    CHECK(repeat.name_of(repeat.spot(*mirror_axis(repeat) - Length::cm(p)).section) ==
          repeat.name_of(repeat.spot(Length::cm(p)).section));
  }
}

TEST_CASE("two colours are always symmetric, about the middle of either") {
  const Repeat repeat = repeat_of({{0, 50}, {1, 20}});
  REQUIRE(mirror_axis(repeat));
  CHECK(std::abs(mirror_axis(repeat)->cm() - 50) < 1e-9);
}

TEST_CASE("lengths mirror each other within 2 cm and four times the scatter of their difference") {
  const auto lopsided = [](double difference, double plus_minus) {
    return repeat_of({{0, 40}, {1, 10}, {2, 30}, {1, 10 + difference}}, plus_minus);
  };
  CHECK(mirror_axis(lopsided(2, 0)));
  CHECK_FALSE(mirror_axis(lopsided(2.01, 0)));
  CHECK(mirror_axis(lopsided(2 + 4 * std::sqrt(2) - 0.01, 1)));
  CHECK_FALSE(mirror_axis(lopsided(2 + 4 * std::sqrt(2) + 0.01, 1)));
  CHECK(mirrors_exactly(lopsided(0.0009, 0)));
  CHECK_FALSE(mirrors_exactly(lopsided(0.0011, 0)));
}

TEST_CASE("of several mirrors the one whose lengths fit best is taken") {
  // Plum-sand-plum-sand mirrors about any section's middle; only about the middles of the plums do the lengths agree.
  const Repeat repeat = repeat_of({{0, 40}, {1, 10}, {0, 41.5}, {1, 10}});
  REQUIRE(mirror_axis(repeat));
  CHECK(std::abs(mirror_axis(repeat)->cm() - 40) < 1e-9);
}

TEST_CASE("turning the circle turns the axis with it") {
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    CAPTURE(seed);
    Random random(seed);
    const double a = 20 + 30 * random.uniform();
    const double b = 60 + 30 * random.uniform();
    std::vector<Stretch> circle = {{0, a}, {1, b}, {2, 10}, {3, a + b}, {2, 10}, {1, b}};
    const Repeat first = repeat_of(circle);
    std::vector<Stretch> turned(circle.begin() + 2, circle.end());
    turned.insert(turned.end(), circle.begin(), circle.begin() + 2);
    const Repeat second = repeat_of(turned);
    REQUIRE(mirror_axis(first));
    REQUIRE(mirror_axis(second));
    const Length moved = *mirror_axis(first) - 2 * Length::cm(a + b) - *mirror_axis(second);
    CHECK(std::abs(nearest(moved, first.total()).cm()) < 1e-9);
  }
}

TEST_CASE("a shorter circle written down several times is found") {
  CHECK(hidden_repeats(plain()) == 1);
  CHECK(hidden_repeats(repeat_of({{0, 40}, {1, 10}, {0, 41}, {1, 11}})) == 2);
  CHECK(hidden_repeats(repeat_of({{0, 40}, {1, 10}, {0, 43}, {1, 10}})) == 1);
  CHECK(hidden_repeats(repeat_of({{0, 40}, {1, 10}, {0, 43}, {1, 10}}, 1)) == 2);
  CHECK(hidden_repeats(repeat_of({{0, 9}, {1, 9}, {0, 9}, {1, 9}, {0, 9}, {1, 9}})) == 3);
  CHECK(hidden_repeats(repeat_of({{0, 9}, {1, 9}, {2, 9}, {0, 9}, {1, 9}, {2, 9}})) == 2);
  CHECK(hidden_repeats(repeat_of({{0, 9}, {1, 9}, {2, 9}, {0, 9}, {2, 9}, {1, 9}})) == 1);
}

TEST_CASE("lengths that creep along the circle do not hide a shorter one") {
  CHECK(hidden_repeats(repeat_of({{0, 10}, {1, 9}, {0, 11.5}, {1, 9}, {0, 13}, {1, 9}})) == 1);
}

TEST_CASE("a yarn in stitches is turned into centimetres whole, what its ball holds too") {
  Yarn yarn{.name = "Tally",
            .fibre = "",
            .ball_mass = Mass::g(50),
            .ball_length = 400_cm,
            .reckoning = Reckoning::stitches,
            .repeat = repeat_of({{0, 20}, {1, 9}}, 2)};
  const Yarn turned = in_centimetres(yarn, 1.85_cm);
  CHECK(turned.reckoning == Reckoning::centimetres);
  CHECK(std::abs(turned.repeat.total().cm() - 53.65) < 1e-9);
  CHECK(std::abs(turned.repeat.sections()[1].plus_minus.cm() - 3.7) < 1e-9);
  REQUIRE(turned.ball_length);
  CHECK(std::abs(turned.ball_length->cm() - 740) < 1e-9);
  CHECK(turned.ball_mass == Mass::g(50));
  yarn.ball_length.reset();
  CHECK_FALSE(in_centimetres(yarn, 1.85_cm).ball_length);
}

TEST_CASE("habits are in the unit the yarn is reckoned in") {
  CHECK(habits(Reckoning::centimetres).short_section == 5_cm);
  CHECK(habits(Reckoning::centimetres).worth_telling == 20_cm);
  CHECK(habits(Reckoning::stitches).short_section.cm() == 3);
  CHECK(habits(Reckoning::stitches).usual_tolerance.cm() == 2);
}

}  // namespace
}  // namespace ballchange
