#include "show/measure.hpp"

#include <doctest/doctest.h>

#include <string>

namespace ballchange {
namespace {

// What is said of how much of a loose end is to be read.
std::string read_line(const ReadingNeeded& needed) {
  const std::vector<Colour> palette{{"plum", {}}, {"rust", {}}};
  const Repeat repeat(palette, {{0, 90_cm, 5_cm}, {1, 80_cm, 5_cm}});
  Learnt learnt;
  learnt.verdict = LearnVerdict::found;
  learnt.repeats.push_back({repeat, {3, 3}, 0.99});
  MeasureShown shown{learnt, palette, 1};
  shown.yarn = Yarn{.name = "Invented", .fibre = {}, .ball_mass = {}, .ball_length = {}, .repeat = repeat};
  shown.needed = needed;
  const std::string screen = measure_screen(shown, Screen{}, Told::centimetres);
  const std::size_t begin = screen.find("Read ");
  return begin == std::string::npos ? screen : screen.substr(begin, screen.find("\nThen") - begin);
}

TEST_CASE("a yarn whose ends seldom tell where they lie is said to be one") {
  CHECK(read_line({}) == "Read      an end of two whole repeats need not settle where it lies.");
  CHECK(read_line({.nine_in_ten = 120_cm, .at_worst = {}}) ==
        "Read      1.2 m of a loose end: nine in ten are settled by then, more than one\n"
        "          in fifty never are.");
  CHECK(read_line({.nine_in_ten = 120_cm, .at_worst = 200_cm}) ==
        "Read      1.2 m of a loose end: nine in ten are settled by then, all but one in\n"
        "          fifty by 2 m.");
}

}  // namespace
}  // namespace ballchange
