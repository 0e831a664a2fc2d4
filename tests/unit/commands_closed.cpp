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

}  // namespace
}  // namespace ballchange
