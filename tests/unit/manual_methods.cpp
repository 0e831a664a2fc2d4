#include <doctest/doctest.h>
#include <fmt/format.h>

#include <fstream>
#include <sstream>
#include <string>

#include "join/method.hpp"

using namespace ballchange;

TEST_CASE("the manual's table of methods tells the ranges the program uses") {
  std::ifstream file(BALLCHANGE_TESTS "/../man/ballchange.1");
  std::ostringstream text;
  text << file.rdbuf();
  const std::string page = text.str();
  REQUIRE_FALSE(page.empty());
  for (const MethodRow& row : methods()) {
    const char* unit = row.in_stitches ? "st" : "cm";
    const std::string line =
        fmt::format("\n.It {} Ta {}\\-{} {} ({} {}) Ta ", row.name, row.low, row.high, unit, row.usual, unit);
    CAPTURE(line);
    CHECK(page.find(line) != std::string::npos);
  }
}
