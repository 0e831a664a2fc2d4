#include "measure/needed.hpp"

#include <doctest/doctest.h>

#include <utility>
#include <vector>

namespace ballchange {
namespace {

Yarn yarn(std::vector<Colour> colours, std::vector<Section> sections) {
  return Yarn{.name = "Invented",
              .fibre = {},
              .ball_mass = {},
              .ball_length = {},
              .repeat = Repeat(std::move(colours), std::move(sections))};
}

std::vector<Colour> palette() { return {{"plum", {}}, {"sand", {}}, {"rust", {}}, {"moss", {}}}; }

TEST_CASE("colours that come once each are known at the first change, or the second") {
  const Yarn plain = yarn(palette(), {{0, 90_cm, 5_cm}, {1, 20_cm, 2_cm}, {2, 80_cm, 5_cm}, {3, 30_cm, 2_cm}});
  const ReadingNeeded needed = reading_needed(plain, {});
  REQUIRE(needed.nine_in_ten.has_value());
  REQUIRE(needed.at_worst.has_value());
  CHECK(*needed.nine_in_ten < plain.repeat.total());
  CHECK(*needed.at_worst >= *needed.nine_in_ten);
}

TEST_CASE("sections that look alike make readings longer") {
  const Yarn plain = yarn(palette(), {{0, 90_cm, 5_cm}, {1, 20_cm, 2_cm}, {2, 80_cm, 5_cm}, {3, 30_cm, 2_cm}});
  const Yarn hard = yarn(palette(), {{0, 30_cm, 2_cm},
                                     {1, 20_cm, 2_cm},
                                     {0, 31_cm, 2_cm},
                                     {1, 20_cm, 2_cm},
                                     {0, 30_cm, 2_cm},
                                     {2, 20_cm, 2_cm},
                                     {3, 69_cm, 4_cm}});
  const ReadingNeeded easily = reading_needed(plain, {});
  const ReadingNeeded hardly = reading_needed(hard, {});
  REQUIRE(hardly.nine_in_ten.has_value());
  CHECK(*hardly.nine_in_ten > *easily.nine_in_ten);
}

// Strands drawn and read by other code, one in fifty backward: nine in ten from 1.35 m, all but one in fifty from
// 1.65 m. To the end of the section that shows it is twice as far.
TEST_CASE("a colour tells as soon as it shows, however long its section") {
  const std::vector<Colour> colours{{"plum", {}}, {"sand", {}}, {"rust", {}}, {"moss", {}}, {"navy", {}}, {"grey", {}}};
  const Yarn splashed = yarn(
      colours,
      {{0, 142_cm, 9_cm}, {1, 4_cm, 1_cm}, {2, 149_cm, 9_cm}, {3, 4_cm, 1_cm}, {4, 158_cm, 9_cm}, {5, 4_cm, 1_cm}});
  const ReadingNeeded needed = reading_needed(splashed, {});
  REQUIRE(needed.nine_in_ten.has_value());
  CHECK(*needed.nine_in_ten > 125_cm);
  CHECK(*needed.nine_in_ten < 145_cm);
  REQUIRE(needed.at_worst.has_value());
  CHECK(*needed.at_worst > 150_cm);
  CHECK(*needed.at_worst < 185_cm);
}

// Which strand was measured first says where the repeat begins and which colour has which number.
TEST_CASE("wherever the repeat begins, and however its colours are numbered, the same is told") {
  const Yarn one = yarn(palette(), {{0, 90_cm, 5_cm}, {1, 11_cm, 1_cm}, {2, 80_cm, 5_cm}, {3, 14_cm, 1_cm}});
  const Yarn other = yarn({{"rust", {}}, {"moss", {}}, {"plum", {}}, {"sand", {}}},
                          {{0, 80_cm, 5_cm}, {1, 14_cm, 1_cm}, {2, 90_cm, 5_cm}, {3, 11_cm, 1_cm}});
  const ReadingNeeded told = reading_needed(one, {}), again = reading_needed(other, {});
  REQUIRE(told.nine_in_ten.has_value());
  CHECK(told.nine_in_ten->cm() == again.nine_in_ten->cm());
  REQUIRE(told.at_worst.has_value() == again.at_worst.has_value());
  if (told.at_worst) CHECK(told.at_worst->cm() == again.at_worst->cm());
}

TEST_CASE("windows that look alike are the longest of their kind") {
  const Yarn one = yarn(
      palette(),
      {{0, 30_cm, 1_cm}, {1, 20_cm, 1_cm}, {2, 50_cm, 1_cm}, {0, 31_cm, 1_cm}, {1, 21_cm, 1_cm}, {3, 50_cm, 1_cm}});
  const std::vector<LookAlike> found = look_alikes(one.repeat);
  REQUIRE(found.size() == 1);
  CHECK(found[0].first == 0);
  CHECK(found[0].second == 3);
  CHECK(found[0].sections == 2);
  // Of a reading "cream 4, teal 15" neither is whole: 23 and 41 cm of teal read alike.
  const Yarn outer =
      yarn(palette(),
           {{0, 8_cm, 1_cm}, {1, 23_cm, 1_cm}, {2, 30_cm, 1_cm}, {0, 8_cm, 1_cm}, {1, 41_cm, 1_cm}, {3, 30_cm, 1_cm}});
  REQUIRE(look_alikes(outer.repeat).size() == 1);
  CHECK(look_alikes(outer.repeat).front().sections == 2);
  const Yarn apart = yarn(palette(), {{0, 30_cm, 1_cm}, {1, 20_cm, 1_cm}, {0, 60_cm, 1_cm}, {2, 21_cm, 1_cm}});
  CHECK(look_alikes(apart.repeat).empty());
}

TEST_CASE("a repeat written twice over has no windows of its own to tell of") {
  const Yarn twice = yarn(palette(), {{0, 30_cm, 1_cm}, {1, 20_cm, 1_cm}, {0, 30_cm, 1_cm}, {1, 20_cm, 1_cm}});
  CHECK(look_alikes(twice.repeat).empty());
}

}  // namespace
}  // namespace ballchange
