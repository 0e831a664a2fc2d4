#include <fmt/format.h>

#include <iostream>
#include <string>

#include "creep/filter.hpp"

// The filter for judge.py: reads lines of events, "doubts G B D", "work U P", "blur V", "gauge", "ball", "see Z V",
// "settle Z V"; at "tell" writes t, b and x, each with its standard deviation, and that of t - b.
int main() {
  using namespace ballchange;
  using namespace ballchange::creeping;
  Filter filter{Doubts{}};
  for (std::string what; std::cin >> what;) {
    double a = 0;
    double b = 0;
    double c = 0;
    if (what == "doubts" && std::cin >> a >> b >> c) {
      filter = Filter(Doubts{a, b, c});
    } else if (what == "work" && std::cin >> a >> b) {
      filter.work(Length::cm(a), Length::cm(b));
    } else if (what == "blur" && std::cin >> a) {
      filter.blur(a);
    } else if (what == "gauge") {
      filter.begin_gauge();
    } else if (what == "ball") {
      filter.begin_ball();
    } else if (what == "see" && std::cin >> a >> b) {
      filter.see(Length::cm(a), b);
    } else if (what == "settle" && std::cin >> a >> b) {
      filter.settle(Length::cm(a), b);
    } else if (what == "tell") {
      const Share looser = filter.looser();
      const Share longer = filter.longer();
      fmt::print("{:.17g} {:.17g} {:.17g} {:.17g} {:.17g} {:.17g} {:.17g}\n", looser.mean, looser.sd, longer.mean,
                 longer.sd, filter.off().cm(), filter.off_variance(), filter.creep().sd);
    } else {
      return 1;
    }
  }
  return 0;
}
