#include "fabric/tool_size.hpp"

#include <doctest/doctest.h>

#include <string>

namespace ballchange {
namespace {

TEST_CASE("a hook or needle in millimetres or by its US name, with the millimetres that a name is taken for") {
  struct Row {
    std::string text;
    Tool tool;
    double mm;
    std::string note;
  };
  const Row rows[] = {
      {"4mm", Tool::hook, 4, ""},
      {" 3.25 mm ", Tool::hook, 3.25, ""},
      {"3.75", Tool::hook, 3.75, ""},
      {"hook E", Tool::hook, 3.5, "E taken as 3.5 mm"},
      {"Hook G", Tool::hook, 4, "G taken as 4 mm; some makers' G is 4.25 mm"},
      {"7", Tool::hook, 4.5, "7 taken as 4.5 mm"},
      {"needles US 6", Tool::needle, 4, "US 6 taken as 4 mm; some makers' US 6 is 4.25 mm"},
      {"needle 10 1/2", Tool::needle, 6.5, "10 1/2 taken as 6.5 mm"},
      {"needle 4.5 mm", Tool::needle, 4.5, ""},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    const auto told = tool_size(row.text, Tool::hook);
    REQUIRE(told);
    CHECK(told->tool == row.tool);
    CHECK(told->mm == row.mm);
    CHECK(told->note == row.note);
  }
  for (const std::string text : {"", "hook", "thick", "400 mm", "0 mm", "-4mm", "4 cm", "needle G"}) {
    CAPTURE(text);
    CHECK(!tool_size(text, Tool::hook));
  }
}

TEST_CASE("a size is the same however it is told") {
  for (const char* other : {"hook 4 mm", "4 mm hook", "4,0 mm", "Hook 4.0 mm", "size 4 mm", "G hook", "G"}) {
    CAPTURE(other);
    CHECK(same_size("hook 4 mm", other));
  }
  for (const char* other : {"hook 3.75 mm", "4.5 mm", "F"}) CHECK_FALSE(same_size("hook 4 mm", other));
}

}  // namespace
}  // namespace ballchange
