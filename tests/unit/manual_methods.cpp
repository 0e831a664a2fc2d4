#include <doctest/doctest.h>
#include <fmt/format.h>

#include <fstream>
#include <sstream>
#include <string>

#include "commands/table.hpp"
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
    const std::string line = fmt::format("\n.It {} Ta {}\\-{} {} ({} {}) Ta ", row.name, row.takes.low, row.takes.high,
                                         unit, row.takes.usual, unit);
    CAPTURE(line);
    CHECK(page.find(line) != std::string::npos);
  }
}

TEST_CASE("whatever command takes --method names every one of them in its help") {
  std::size_t taking = 0;
  for (const CommandRow& command : commands()) {
    for (const OptionGroup& group : command.options()) {
      for (const OptionRow& option : group.rows) {
        if (option.name != "method") continue;
        CAPTURE(command.name);
        ++taking;
        for (const MethodRow& row : methods()) CHECK(option.help.find(row.name) != std::string_view::npos);
      }
    }
  }
  CHECK(taking == 8);
}
