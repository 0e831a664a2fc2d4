#include "show/order.hpp"

#include <doctest/doctest.h>

#include <algorithm>

namespace ballchange {
namespace {

TEST_CASE("--need is told so that it can be typed, and holds no less") {
  struct Case {
    Length need;
    Told told;
    const char* option;
  };
  for (const Case& c : {
           Case{Length::cm(19980), Told::centimetres, "--need 200m"},
           Case{Length::cm(150), Told::centimetres, "--need 1.5m"},
           Case{Length::cm(98), Told::centimetres, "--need 1m"},
           Case{Length::cm(19980), Told::inches, "--need 219yd"},
           // 8.53 yd, by quarters
           Case{Length::cm(780), Told::inches, "--need \"8 3/4yd\""},
           Case{Length::cm(7921), Told::stitches, "--need 7925st"},
       }) {
    CAPTURE(c.option);
    CHECK(need_option(c.need, c.told) == c.option);
  }
}

TEST_CASE("of a thousand balls not read, and of many ends that settle nothing, a few are told and the rest counted") {
  OpenEndsShown shown;
  for (int k = 1; k <= 1000; ++k) {
    shown.ends.push_back({"B" + std::to_string(k), "", OpenEnd::Why::not_read, "Write down what one shows.", {}});
  }
  const Screen screen{};
  CHECK(open_ends_screen(shown, screen, Told::centimetres) ==
        "Can't tell yet where balls B1, B2, B3, B4, B5 and 995 more lie: none of their\n"
        "ends is read. Write down what at least one of each shows.\n");
  for (int k = 1; k <= 7; ++k) {
    shown.ends.push_back({"C" + std::to_string(k), "inside", OpenEnd::Why::unsettled, "how long is rust?", {}});
  }
  const std::string text = open_ends_screen(shown, screen, Told::centimetres);
  CHECK(std::count(text.begin(), text.end(), '\n') == 2 + 6);
  CHECK(text.find("Also      2 more ends, once these are known.\n") != std::string::npos);
  shown.ends.erase(shown.ends.begin() + 1, shown.ends.begin() + 1000);
  CHECK(
      open_ends_screen(shown, screen, Told::centimetres).find("where ball B1 lies: none of its ends is read. Write") !=
      std::string::npos);
}

}  // namespace
}  // namespace ballchange
