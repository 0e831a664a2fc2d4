#include <doctest/doctest.h>

#include "session.hpp"

namespace ballchange {
namespace {

TEST_CASE("a project that can't be read is there all the same, and nobody is told to begin anew") {
  Session session;
  session.disk.files["wrap.yaml"] = "format: ballchange project 1\n";
  session.disk.locked.insert("wrap.yaml");
  for (const std::vector<std::string>& typed :
       {std::vector<std::string>{}, {"log"}, {"row", "--row", "3"}, {"check", "--old", "plum 5"}}) {
    const Ran ran = session.run(typed);
    CHECK(ran.code == 1);
    CHECK(ran.complaints.starts_with("cannot open wrap.yaml: "));
    CHECK(ran.out.empty());
  }
}

TEST_CASE("a project that can't be read beside one that can is told, and neither is taken for the one that was meant") {
  Session session;
  session.disk.files["a.yaml"] = "format: ballchange project 1\n";
  session.disk.locked.insert("a.yaml");
  session.disk.files["b.yaml"] =
      "format: ballchange project 1\n"
      "yarn: {name: L, repeat: [{colour: plum, length: 92 cm}, {colour: sand, length: 11 cm}]}\n"
      "log:\n";
  const std::string before = session.disk.files["b.yaml"];
  const Ran start = session.run({});
  CHECK(start.code == 0);
  CHECK(
      start.out.starts_with("2 projects in this folder, the one worked on last first:\n"
                            "          b.yaml: not begun.\n"
                            "          a.yaml can't be read: cannot open a.yaml: Permission denied\n"
                            "In b.yaml:\n"));
  const Ran row = session.run({"row", "--row", "3"});
  CHECK(row.code == 2);
  CHECK(row.complaints ==
        "several projects in this folder: b.yaml, a.yaml; name the one meant right after the command, as b.yaml\n");
  CHECK(session.disk.files["b.yaml"] == before);
  CHECK(session.run({"row", "b.yaml", "--row", "3"}).code == 0);
}

}  // namespace
}  // namespace ballchange
