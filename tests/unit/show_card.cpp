#include "show/card.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "paper/strip.hpp"
#include "unit/orchard.hpp"

namespace ballchange {
namespace {

LongSection section(double whole, double least, double most) {
  return {0, Length::cm(whole), 8_cm, Length::cm(least), Length::cm(most)};
}

}  // namespace

TEST_CASE("a card's rows go in even steps of the tape, as far as the overlap lies inside") {
  struct Case {
    double whole, least, most;
    Told told;
    std::size_t count;
    double first_used, first_leave, last_used;  // cm
  };
  const std::vector<Case> cases{
      {80, 18, 70, Told::centimetres, 11, 20, 68, 70},
      {80, 20, 70, Told::centimetres, 11, 20, 68, 70},  // the least itself
      // 2 in steps: 8 in is 20.32 cm, 26 in 66.04 cm.
      {80, 18, 70, Told::inches, 10, 20.32, 67.68, 66.04},
      {40, 10, 36, Told::stitches, 14, 10, 38, 36},
      // 24 lines at most: 1,200 cm in steps of 100.
      {1300, 50, 1250, Told::centimetres, 12, 100, 1208, 1200},
      // No round length lies inside: the middle.
      {30, 21, 24, Told::centimetres, 1, 22.5, 15.5, 22.5},
  };
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Case& c = cases[i];
    CAPTURE(i);
    const auto rows = card_rows(section(c.whole, c.least, c.most), c.told);
    REQUIRE(rows.size() == c.count);
    CHECK(rows.front().used.cm() == doctest::Approx(c.first_used).epsilon(1e-9));
    CHECK(rows.front().leave.cm() == doctest::Approx(c.first_leave).epsilon(1e-9));
    CHECK(rows.back().used.cm() == doctest::Approx(c.last_used).epsilon(1e-9));
  }
}

TEST_CASE("lengths on a card stay in one unit") {
  CHECK(card_length(152_cm, Told::centimetres) == "152 cm");
  CHECK(card_length(80.26_cm, Told::centimetres) == "80.5 cm");
  CHECK(card_length(47.625_cm, Told::inches) == "18 3/4 in");
  CHECK(card_length(12_cm, Told::stitches) == "12 stitches");
}

TEST_CASE("a strip is broken into lengths of 15 cm or 6 in") {
  CHECK(strip_lengths(section(15, 1, 2), Told::centimetres) == 1);
  CHECK(strip_lengths(section(15.1, 1, 2), Told::centimetres) == 2);
  CHECK(strip_lengths(section(80, 18, 70), Told::centimetres) == 6);
  CHECK(strip_lengths(section(15.24, 1, 2), Told::inches) == 1);
  CHECK(strip_lengths(section(80, 18, 70), Told::inches) == 6);
}

}  // namespace ballchange
