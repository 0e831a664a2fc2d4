#include "fabric/yarn_class.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <string>

#include "unit/rows.hpp"

// yarn_weights.csv: the Craft Yarn Council's yarn weight system (see tests/checks/SOURCES.md).
namespace ballchange {
namespace {

// "21-32" -> its ends; "6 and fewer", "15 and larger" have one.
void check_range(const UsualRange& range, std::string text) {
  CAPTURE(text);
  if (const auto regular = text.find("regular "); regular != std::string::npos) text = text.substr(regular + 8);
  const double first = std::stod(text);
  const std::size_t dash = text.find('-');
  if (text.find("fewer") != std::string::npos) {
    CHECK(range.low == 0);
    CHECK(range.high == first);
  } else if (text.find("larger") != std::string::npos) {
    CHECK(range.low == first);
    CHECK(range.high >= 50);
  } else {
    CHECK(range.low == first);
    CHECK(range.high == (dash == std::string::npos ? first : std::stod(text.substr(dash + 1))));
  }
}

TEST_CASE("the usual ranges are those of the council's yarn weight system") {
  const auto published = rows_of("yarn_weights.csv");
  REQUIRE(yarn_classes().size() == published.size());
  for (std::size_t k = 0; k < published.size(); ++k) {
    const YarnClass& one = yarn_classes()[k];
    CHECK(std::to_string(one.number) == published[k][0]);
    CHECK(yarn_class_named(published[k][0]) == &one);
    CHECK(yarn_class_named(published[k][1]) == &one);
    check_range(one.knit_stitches, published[k][2]);
    check_range(one.needle_mm, published[k][3]);
    check_range(one.crochet_stitches, published[k][4]);
    check_range(one.hook_mm, published[k][5]);
  }
}

TEST_CASE("a class by its number or its name") {
  CHECK(yarn_class_named("super-fine")->number == 1);
  CHECK(yarn_class_named(" LIGHT ")->number == 3);
  for (const std::string word : {"", "8", "-1", "heavy", "lig"}) {
    CAPTURE(word);
    CHECK(yarn_class_named(word) == nullptr);
  }
}

TEST_CASE("22 stitches to 10 cm are more than usual in a light yarn's single crochet, not in a close stitch") {
  // Common practice, no source: 22 stitches to 10 cm is usual for a light yarn in a close stitch.
  const YarnClass& light = *yarn_class_named("light");
  CHECK(against_stitches(light.crochet_stitches, 22 * 1.016) == Against::above);
  CHECK(against_stitches(light.knit_stitches, 22 * 1.016) == Against::within);
}

TEST_CASE("counts are held against the ranges as whole stitches, sizes as they are") {
  const UsualRange usual{12, 17};
  CHECK(against_stitches(usual, 17.4) == Against::within);
  CHECK(against_stitches(usual, 17.6) == Against::above);
  CHECK(against_stitches(usual, 11.6) == Against::within);
  CHECK(against_stitches(usual, 11.4) == Against::below);
  CHECK(against_size({4.5, 5.5}, 4.25) == Against::below);
  CHECK(against_size({4.5, 5.5}, 5.5) == Against::within);
  CHECK(against_size({4.5, 5.5}, 5.75) == Against::above);
}

}  // namespace
}  // namespace ballchange
