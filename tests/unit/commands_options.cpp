#include "console/options.hpp"

#include <doctest/doctest.h>

#include <array>
#include <string>

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 6> kRows{{
    {"yarn", "PROFILE", ""},
    {"whole", "\"plum 84\"", "", true},
    {"colour", "auto|always", ""},
    {"sparing", "", ""},
    {"from", "usual|other", ""},
    {"format", "text|json", ""},
}};
constexpr std::array<OptionGroup, 1> kGroups{{{"All", kRows}}};

Options parsed(const std::vector<std::string>& arguments) { return parse_options(arguments, kGroups, "place"); }

std::string refusal(const std::vector<std::string>& arguments) {
  try {
    static_cast<void>(parsed(arguments));
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::content);
    return problem.what();
  }
  return "accepted";
}

TEST_CASE("values come after a space or an equals sign, and may begin with a minus") {
  CHECK(parsed({"--yarn", "orchard"}).text("yarn") == "orchard");
  CHECK(parsed({"--yarn=orchard"}).text("yarn") == "orchard");
  CHECK(parsed({"--yarn", "-3"}).text("yarn") == "-3");
  CHECK(parsed({"--yarn", ""}).text("yarn") == "");
  CHECK_FALSE(parsed({}).text("yarn").has_value());
  CHECK(parsed({"--sparing"}).has("sparing"));
  CHECK(parsed({"--color", "always"}).text("colour") == "always");
  CHECK(parsed({"--color=always"}).text("colour") == "always");
}

TEST_CASE("options that repeat keep their order, words that belong to none are kept apart") {
  const Options options = parsed({"--whole", "plum 84", "left", "--whole=sand 11"});
  CHECK(options.texts("whole") == std::vector<std::string>{"plum 84", "sand 11"});
  CHECK(options.words() == std::vector<std::string>{"left"});
}

TEST_CASE("a wrong option is refused with what would be right") {
  struct Case {
    std::vector<std::string> arguments;
    const char* message;
  };
  const std::array<Case, 11> cases{{
      {{"--yarm", "x"}, "there is no option --yarm, did you mean --yarn?"},
      {{"--yarm=x"}, "there is no option --yarm, did you mean --yarn?"},
      {{"--spar"}, "there is no option --spar, did you mean --sparing?"},
      {{"--yarn"}, "--yarn needs a value: --yarn PROFILE"},
      {{"--yarn", "--sparing"}, "--yarn needs a value: --yarn PROFILE, but the option --sparing follows it"},
      {{"--yarn", "a", "--yarn", "b"}, "--yarn is given twice: give it once"},
      {{"--sparing=yes"}, "--sparing takes no value: give it alone"},
      {{"--\x1b[31m"}, "there is no option --\\x1B[31m; see ballchange help place"},
      {{"--xyz"}, "there is no option --xyz; see ballchange help place"},
      {{"--form", "json"}, "there is no option --form, did you mean --format?"},
      {{"--="}, "there is no option --; see ballchange help place"},
  }};
  for (const Case& c : cases) {
    CAPTURE(c.arguments.front());
    CHECK(refusal(c.arguments) == c.message);
  }
}

TEST_CASE("counts are whole numbers within reason") {
  const auto count = [](const char* text) { return count_option(parsed({"--yarn", text}), "yarn", 1); };
  CHECK(count("118") == 118);
  CHECK(count(" 7 ") == 7);
  for (const char* wrong : {"0", "-1", "1.5", "12a", "", "99999999999999999999", "2000000"}) {
    CAPTURE(wrong);
    CHECK_THROWS_AS(static_cast<void>(count(wrong)), Problem);
  }
}

}  // namespace
}  // namespace ballchange
