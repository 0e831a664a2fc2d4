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
  struct Case {
    Length length;
    double whole;  // cm
    Told told;
    std::string_view said;
  };
  const Case cases[] = {
      {152_cm, 200, Told::centimetres, "152 cm"},
      {80.26_cm, 92, Told::centimetres, "80.5 cm"},
      // 60 m: in metres, the least and the overlap's 8 cm too.
      {6000_cm, 6000, Told::centimetres, "60 m"},
      {5508_cm, 6000, Told::centimetres, "55.08 m"},
      {50_cm, 6000, Told::centimetres, "0.5 m"},
      {47.625_cm, 92, Told::inches, "18 3/4 in"},
      // 10 yd are 914.4 cm.
      {914.4_cm, 914.4, Told::inches, "10 yd"},
      {45.72_cm, 914.4, Told::inches, "0.5 yd"},
      {920_cm, 900, Told::inches, "10 yd 2 in"},
      {12_cm, 40, Told::stitches, "12 stitches"},
  };
  for (const Case& c : cases) {
    CAPTURE(c.said);
    CHECK(card_length(c.length, section(c.whole, 10, 20), c.told) == c.said);
  }
}

TEST_CASE("a strip names both its scales, whatever it is ruled in, and its two lines of numbers keep apart") {
  const Yarn yarn = orchard();
  for (const Told told : {Told::centimetres, Told::inches}) {
    for (const double whole : {70.0, 80.0, 92.0, 100.0, 151.0}) {
      CAPTURE(whole);
      const CardShown shown{yarn, yarn.repeat, false, Method::felted, 8_cm, {section(whole, 20, 60)}, {}, ""};
      const std::string svg = strip_svg(shown, shown.sections.front(), told);
      CHECK(svg.find("font-weight=\"bold\">used on the old</text>") != std::string::npos);
      CHECK(svg.find(">leave on the new</text>") != std::string::npos);
      // What is used is bold as in the tables, so that no number is read on the wrong scale.
      CHECK(svg.find("font-size=\"2.4\" font-weight=\"bold\" text-anchor=\"middle\">5</text>") != std::string::npos);
      CHECK(svg.find("font-size=\"2.4\" text-anchor=\"middle\">5</text>") != std::string::npos);
    }
  }
}

TEST_CASE("a card counts sections as the profile does, whichever way the work runs") {
  const Yarn yarn = orchard();
  const Repeat mirrored = yarn.repeat.mirrored();
  // Rust, the third of six, is the fourth from the end.
  const CardShown shown{yarn, mirrored, true, Method::felted, 8_cm, {{3, 80_cm, 8_cm, 18_cm, 70_cm}}, {}, ""};
  Json json;
  json.object();
  card_members(json, shown, Told::centimetres);
  json.end();
  CHECK(json.take().find(R"("sections":[{"section":2,"colour":"rust","before":"moss","after":"sand",)") !=
        std::string::npos);
}

TEST_CASE("a strip is broken into lengths of 15 cm or 6 in") {
  CHECK(strip_lengths(section(15, 1, 2), Told::centimetres) == 1);
  CHECK(strip_lengths(section(15.1, 1, 2), Told::centimetres) == 2);
  CHECK(strip_lengths(section(80, 18, 70), Told::centimetres) == 6);
  CHECK(strip_lengths(section(15.24, 1, 2), Told::inches) == 1);
  CHECK(strip_lengths(section(80, 18, 70), Told::inches) == 6);
}

}  // namespace ballchange
