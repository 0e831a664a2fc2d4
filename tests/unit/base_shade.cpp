#include "base/shade.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "unit/rows.hpp"

namespace ballchange {
namespace {

TEST_CASE("CIEDE2000 gives the 34 published differences, either way round") {
  // Sharma, Wu, Dalal 2005, Table 1: four decimals.
  const auto rows = rows_of("ciede2000.csv");
  REQUIRE(rows.size() == 34);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CAPTURE(i + 1);
    const auto at = [&](std::size_t column) { return std::stod(rows[i].at(column)); };
    const Lab x{at(0), at(1), at(2)};
    const Lab y{at(3), at(4), at(5)};
    CHECK(std::abs(colour_difference(x, y) - at(6)) <= 0.000051);
    CHECK(std::abs(colour_difference(y, x) - at(6)) <= 0.000051);
  }
}

TEST_CASE("a colour does not differ from itself") {
  CHECK(colour_difference({50, 20, -30}, {50, 20, -30}) == 0);
  CHECK(colour_difference({50, 0, 0}, {50, 0, 0}) == 0);
}

TEST_CASE("sRGB primaries come out in CIELAB as published") {
  // srgb_lab.csv: IEC 61966-2-1, seven-digit matrix; 2e-4 for the digits of the matrix and of the table.
  const auto rows = rows_of("srgb_lab.csv");
  REQUIRE(rows.size() == 8);
  for (const auto& row : rows) {
    CAPTURE(row.at(0));
    const auto channel = [&](std::size_t column) { return static_cast<std::uint8_t>(std::stoi(row.at(column))); };
    const Lab lab = to_lab({channel(1), channel(2), channel(3)});
    CHECK(std::abs(lab.L - std::stod(row.at(4))) < 2e-4);
    CHECK(std::abs(lab.a - std::stod(row.at(5))) < 2e-4);
    CHECK(std::abs(lab.b - std::stod(row.at(6))) < 2e-4);
  }
}

TEST_CASE("a shade is hex or a CSS name, case ignored") {
  // Names: CSS Color Module Level 4, section 6.1.
  CHECK(parse_shade("#5b2a59") == Shade{0x5b, 0x2a, 0x59});
  CHECK(parse_shade("#5B2A59") == Shade{0x5b, 0x2a, 0x59});
  CHECK(parse_shade("#abc") == Shade{0xaa, 0xbb, 0xcc});
  CHECK(parse_shade("aliceblue") == Shade{240, 248, 255});
  CHECK(parse_shade("YellowGreen") == Shade{154, 205, 50});
  CHECK(parse_shade("rebeccapurple") == Shade{102, 51, 153});
  CHECK(parse_shade("grey") == parse_shade("gray"));
  for (const char* wrong : {"", "#", "#12", "#12345", "#1234567", "#12345g", "#-12345", "# 12345", "5b2a59", "plumm"}) {
    CAPTURE(wrong);
    CHECK_FALSE(parse_shade(wrong));
  }
}

}  // namespace
}  // namespace ballchange
