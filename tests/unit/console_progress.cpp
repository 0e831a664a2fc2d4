#include <doctest/doctest.h>

#include <sstream>
#include <string>

#include "console/progress.hpp"
#include "session.hpp"

namespace ballchange {
namespace {

// What a terminal is sent while two parts of a computation take so many seconds each.
struct Shown {
  explicit Shown(double each, bool terminal = true) {
    std::ostringstream out;
    std::istringstream in;
    FakeDisk disk;
    FixedClock clock{0};
    FakeWatch watch;
    Context context{out, in, disk, clock, watch, [](const std::string&) { return ""; }, [](std::string_view) {}};
    context.error_is_terminal = terminal;
    context.draw_over = [this](std::string_view text) { sent += text; };
    Progress progress(context, 2);
    for (int k = 0; k < 2; ++k) {
      const auto told = progress.part();
      for (int step = 1; told && step <= 4; ++step) {
        watch.now += each / 4;
        told(step / 4.0);
      }
    }
    progress.end();
  }
  std::string sent;
};

TEST_CASE("a bar comes once half a second has passed, and is gone at the end") {
  CHECK(Shown(1).sent ==
        "\r=======----------------------- 25 %"
        "\r===========------------------- 37 %"
        "\r===============--------------- 50 %"
        "\r==================------------ 62 %"
        "\r======================-------- 75 %"
        "\r==========================---- 87 %"
        "\r============================== 100 %"
        "\r                                    \r");
}

TEST_CASE("no bar is drawn for what is quick, nor where nobody looks") {
  CHECK(Shown(0.2).sent.empty());
  CHECK(Shown(1, false).sent.empty());
}

}  // namespace
}  // namespace ballchange
