#include <doctest/doctest.h>

#include "session.hpp"
#include "wrap.hpp"

namespace ballchange {
namespace {

struct Wrap : Session {
  Wrap() {
    disk.files["wrap.yaml"] = wrap_file({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 3",
                                         "join, ball: B, row: 4, stitch: 0", "cancel, entry: 5", "cancel, entry: 4"});
    environment["COLUMNS"] = "100";
  }
  // The numbers of the entries shown.
  std::vector<int> entries(std::vector<std::string> more) {
    std::vector<std::string> arguments{"log", "wrap.yaml", "--csv"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Ran ran = run(arguments);
    CAPTURE(ran.complaints);
    REQUIRE(ran.code == Exit::done);
    std::vector<int> numbers;
    for (std::size_t at = ran.out.find('\n') + 1; at < ran.out.size(); at = ran.out.find('\n', at) + 1) {
      numbers.push_back(std::stoi(ran.out.substr(at)));
    }
    return numbers;
  }
};

using Numbers = std::vector<int>;

TEST_CASE("the log of a ball holds what names it, the join that ended it and what cancels these") {
  Wrap wrap;
  CHECK(wrap.entries({}) == Numbers{1, 2, 3, 4, 5, 6, 7});
  CHECK(wrap.entries({"--ball", "B"}) == Numbers{2, 5, 6});
  CHECK(wrap.entries({"--ball", "A"}) == Numbers{1, 3});
  wrap.disk.files["wrap.yaml"] =
      wrap_file({"ball, ball: A", "ball, ball: B", "begin, ball: A", "join, ball: B, row: 4, stitch: 0"});
  CHECK(wrap.entries({"--ball", "A"}) == Numbers{1, 3, 4});
}

TEST_CASE("--since leaves out what is older, a day meaning its first minute in UTC") {
  Wrap wrap;  // 19:01 to 19:07
  CHECK(wrap.entries({"--since", "2026-03-01T19:05Z"}) == Numbers{5, 6, 7});
  CHECK(wrap.entries({"--since", "2026-03-01T20:05:01+01:00"}) == Numbers{6, 7});
  CHECK(wrap.entries({"--since", "2026-03-01"}).size() == 7);
  CHECK(wrap.entries({"--since", "2026-03-02"}).empty());
  const Ran ran = wrap.run({"log", "--since", "yesterday"});
  CHECK(ran.code == Exit::content);
  CHECK(ran.complaints.starts_with("--since: 'yesterday' is no date; write one, like 2026-03-02 or 2026-03-02T19:20Z"));
}

TEST_CASE("what can't be is refused with what would be right") {
  Wrap wrap;
  CHECK(wrap.run({"log", "--ball", "C"}).complaints == "--ball: there is no ball C; the project's are A and B\n");
  CHECK(wrap.run({"log", "--csv", "--format", "json"}).complaints ==
        "--csv and --format json exclude each other: give one\n");
  CHECK(wrap.run({"log", "gone.yaml"}).code == Exit::file);
  wrap.disk.files["wrap.yaml"] = wrap_file({});
  CHECK(wrap.run({"log", "--ball", "C"}).complaints ==
        "--ball: there is no ball C; the project has none yet: add one with ball\n");
  CHECK(wrap.run({"log"}).out == "No entries.\n\nJoins     0.\nCut away  0 cm.\n");
}

TEST_CASE("lengths are told in the project's unit, and in another when that is asked for") {
  Wrap wrap;
  Project inches = wrap_project();
  inches.units = Unit::in;
  wrap.disk.files["wrap.yaml"] = wrap_file({"ball, ball: A, length: 10 yd"}, inches);
  CHECK(wrap.run({"log"}).out.find("A: fresh, 10 yd left") != std::string::npos);
  CHECK(wrap.run({"log", "--units", "cm"}).out.find("A: fresh, 9.14 m left") != std::string::npos);
}

}  // namespace
}  // namespace ballchange
