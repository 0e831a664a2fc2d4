#include "join/long_sections.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "unit/orchard.hpp"

namespace ballchange {
namespace {

std::vector<LongSection> orchard_sections(Length allowance) {
  return long_sections(orchard().repeat, allowance, habits(Reckoning::centimetres));
}

}  // namespace

TEST_CASE("used on the old and left on the new make the section and the overlap together") {
  // The manual's worked join: rust 80, an overlap of 8, 30 used; 58 stay on the new end (MATHS: 30 + 58 - 8 = 80).
  const auto sections = orchard_sections(8_cm);
  REQUIRE(sections.size() == 3);
  CHECK(sections[1].whole.cm() == doctest::Approx(80).epsilon(1e-12));
  CHECK(sections[1].leave(30_cm).cm() == doctest::Approx(58).epsilon(1e-12));
}

TEST_CASE("a whole overlap keeps away from both changes by 3 cm and twice the plus-minus") {
  // By hand, overlap 8: plum 92 +- 6 keeps 12 clear: 8 + 12 to 92 - 12; rust 80 +- 5: 18 to 70; navy 70 +- 5: 18 to 60.
  struct Case {
    std::size_t section;
    double least, most;
  };
  const std::vector<Case> cases{{0, 20, 80}, {2, 18, 70}, {4, 18, 60}};
  const auto sections = orchard_sections(8_cm);
  REQUIRE(sections.size() == cases.size());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i);
    CHECK(sections[i].section == cases[i].section);
    CHECK(sections[i].least.cm() == doctest::Approx(cases[i].least).epsilon(1e-12));
    CHECK(sections[i].most.cm() == doctest::Approx(cases[i].most).epsilon(1e-12));
  }
}

TEST_CASE("a section that hardly varies still keeps 3 cm clear, one counted in stitches 2") {
  const Repeat even({{"plum", {}}, {"sand", {}}}, {{0, 14_cm, 0.5_cm}, {1, 13.9_cm, 0.5_cm}});
  const auto sections = long_sections(even, 8_cm, habits(Reckoning::centimetres));
  REQUIRE(sections.size() == 1);
  CHECK(sections.front().section == 0);
  CHECK(sections.front().least.cm() == doctest::Approx(11).epsilon(1e-12));
  CHECK(sections.front().most.cm() == doctest::Approx(11).epsilon(1e-12));
  const auto counted = long_sections(even, 8_cm, habits(Reckoning::stitches));
  REQUIRE(counted.size() == 2);
  CHECK(counted.front().least.cm() == doctest::Approx(10).epsilon(1e-12));
}

TEST_CASE("an overlap longer than every section fits nowhere") { CHECK(orchard_sections(70_cm).empty()); }

}  // namespace ballchange
