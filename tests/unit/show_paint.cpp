#include "show/paint.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace ballchange {
namespace {

TEST_CASE("luminance is that of WCAG 2") {
  // Web Content Accessibility Guidelines 2.1, "relative luminance": white 1, black 0, and its coefficients.
  CHECK(std::abs(luminance({255, 255, 255}) - 1) < 1e-12);
  CHECK(luminance({0, 0, 0}) == 0);
  CHECK(std::abs(luminance({0, 255, 0}) - 0.7152) < 1e-12);
}

TEST_CASE("letters contrast with every ground") {
  for (int red = 0; red < 256; red += 15) {
    for (int green = 0; green < 256; green += 15) {
      for (int blue = 0; blue < 256; blue += 15) {
        const Shade shade{std::uint8_t(red), std::uint8_t(green), std::uint8_t(blue)};
        const double light = luminance(shade);
        const double contrast = wants_white_letters(shade) ? 1.05 / (light + 0.05) : (light + 0.05) / 0.05;
        REQUIRE(contrast >= 4.5);  // WCAG 2.1, success criterion 1.4.3
      }
    }
  }
}

TEST_CASE("the 256-colour palette gives its own colours back") {
  // xterm's 256colres.h: the cube's levels are 0, 95, 135, 175, 215, 255, the greys 8, 18, ..., 238.
  CHECK(palette_index({0, 0, 0}) == 16);
  CHECK(palette_index({255, 255, 255}) == 231);
  CHECK(palette_index({255, 0, 0}) == 196);
  CHECK(palette_index({8, 8, 8}) == 232);
  CHECK(palette_index({95, 135, 175}) == 67);
}

TEST_CASE("a row changes colour only where the ground does, and leaves none behind") {
  Row row(5);
  row[1].ground = row[2].ground = Shade{0, 0, 0};
  CHECK(write(row, 1, "ab", 2) == 2);
  CHECK(painted(row, Depth::none) == " ab\n");
  CHECK(painted(row, Depth::truecolour) == " \x1b[38;2;255;255;255;48;2;0;0;0mab\x1b[0m\n");
  CHECK(painted(row, Depth::colours_256) == " \x1b[38;5;231;48;5;16mab\x1b[0m\n");
}

TEST_CASE("wide and combining characters keep their columns") {
  Row row(4);
  CHECK(write(row, 0,
              "\xe7\xb4\xab"
              "e\xcc\x81x",
              4) == 4);  // a wide one, e with an acute accent of its own
  CHECK(painted(row, Depth::none) ==
        "\xe7\xb4\xab"
        "e\xcc\x81x\n");
  Row narrow(1);
  CHECK(write(narrow, 0, "\xe7\xb4\xab", 1) == 0);
}

}  // namespace
}  // namespace ballchange
