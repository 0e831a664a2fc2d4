#include "console/screen.hpp"

#include <doctest/doctest.h>

#include <map>
#include <sstream>
#include <string>

#include "fixed_clock.hpp"
#include "session.hpp"

namespace ballchange {
namespace {

Screen screen(bool terminal, std::map<std::string, std::string> environment, ColourWish wish = ColourWish::when_it_can,
              std::size_t columns = 0) {
  std::ostringstream out;
  std::istringstream in;
  FakeDisk disk;
  const FixedClock clock(0);
  SystemStopwatch watch;
  Context context{out,
                  in,
                  disk,
                  clock,
                  watch,
                  [environment](const std::string& name) {
                    const auto found = environment.find(name);
                    return found == environment.end() ? std::string() : found->second;
                  },
                  [](std::string_view) {}};
  context.out_is_terminal = terminal;
  context.terminal_columns = columns;
  return screen_of(context, wish);
}

TEST_CASE("colour goes to a terminal that can, unless somebody does not want it") {
  const auto automatic = ColourWish::when_it_can;
  CHECK(screen(true, {{"TERM", "xterm"}}).depth == Depth::colours_256);
  CHECK(screen(true, {{"TERM", "xterm"}, {"COLORTERM", "truecolor"}}).depth == Depth::truecolour);
  CHECK(screen(false, {{"TERM", "xterm"}}).depth == Depth::none);
  CHECK(screen(true, {{"TERM", "dumb"}}).depth == Depth::none);
  CHECK(screen(true, {}).depth == Depth::none);
  CHECK(screen(true, {{"TERM", "xterm"}, {"NO_COLOR", "1"}}, automatic).depth == Depth::none);
  CHECK(screen(true, {{"TERM", "xterm"}, {"NO_COLOR", ""}}, automatic).depth == Depth::colours_256);
  CHECK(screen(false, {{"NO_COLOR", "1"}}, ColourWish::always).depth == Depth::colours_256);
  CHECK(screen(true, {{"TERM", "xterm"}}, ColourWish::never).depth == Depth::none);
}

TEST_CASE("the width is COLUMNS, then the terminal's, then 80") {
  CHECK(screen(true, {{"COLUMNS", "60"}}, ColourWish::never, 120).columns == 60);
  CHECK(screen(true, {}, ColourWish::never, 120).columns == 120);
  CHECK(screen(true, {{"COLUMNS", "wide"}}, ColourWish::never, 120).columns == 120);
  CHECK(screen(false, {}).columns == 80);
  CHECK(screen(false, {{"COLUMNS", "3"}}).columns == 20);
}

TEST_CASE("a terminal's locale decides the letters, a file's never") {
  CHECK(screen(true, {{"LANG", "en_GB.UTF-8"}}).utf8);
  CHECK(screen(true, {{"LC_ALL", "C.utf8"}, {"LANG", "C"}}).utf8);
  CHECK_FALSE(screen(true, {{"LC_ALL", "C"}, {"LANG", "en_GB.UTF-8"}}).utf8);
  CHECK_FALSE(screen(true, {}).utf8);
  CHECK(screen(false, {{"LC_ALL", "C"}}).utf8);
}

TEST_CASE("text is no wider than 120 columns, however wide the terminal") {
  const std::vector<std::vector<std::string>> commands{
      {"order", "--yarn", "orchard.yaml", "--ends", "A: plum 15, sand 11, rust / navy 20, moss", "--ends",
       "B: plum 40, sand 11, rust / navy 30, moss"},
      {"order", "--yarn", "orchard.yaml", "--ends", "A: plum, rust / ?", "--ends", "B: ? / ?"},
      {"estimate", "--yarn", "orchard.yaml", "--needed", "300m"}};
  for (const auto& command : commands) {
    CAPTURE(command[0]);
    Session narrower, wider;
    for (Session* desk : {&narrower, &wider}) desk->disk.files["orchard.yaml"] += "ball: {mass: 50 g, length: 125 m}\n";
    narrower.environment["COLUMNS"] = "120";
    wider.environment["COLUMNS"] = "200";
    const Ran ran = narrower.run(command);
    CHECK_FALSE(ran.out.empty());
    CHECK(wider.run(command).out == ran.out);
  }
}

}  // namespace
}  // namespace ballchange
