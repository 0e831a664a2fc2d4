#include <doctest/doctest.h>

#include "session.hpp"

// What `measure PROJECT` learns from: each measurement of entries that count, once.

namespace ballchange {
namespace {

struct Wrap : Session {
  Wrap() {
    did({"start", "wrap", "--yarn", "orchard.yaml", "--stitches", "60", "--yarn-per-stitch", "1.85"});
    did({"ball", "--ball", "A", "--outside", "plum 15, sand 11, rust 30", "--inside", "rust 30, sand 11, plum"});
    did({"ball", "--ball", "A", "--begin"});
    did({"ball", "--ball", "B", "--outside", "plum 15, sand 11, rust 30"});
    did({"row", "--row", "40"});
  }
  void did(const std::vector<std::string>& arguments) {
    const Ran ran = run(arguments);
    CAPTURE(arguments.front());
    CAPTURE(ran.complaints);
    REQUIRE(ran.code == Exit::done);
  }
  // How many strands it was.
  std::string strands() {
    const std::string said = run({"measure", "wrap.yaml", "--format", "json"}).out;
    const std::string key = "\"strands\":";
    const std::size_t at = said.find(key);
    REQUIRE(at != std::string::npos);
    return said.substr(at + key.size(), said.find(',', at) - at - key.size());
  }
};

TEST_CASE("both ends of a ball and the end of another are three measurements") { CHECK(Wrap().strands() == "3"); }

TEST_CASE("a join that copies its ball's reading, and what the old ball's other end was read as, adds none") {
  Wrap wrap;
  wrap.did({"join", "--ball", "B", "--old", "rust 30, sand 11, plum", "--row", "40"});
  CHECK(wrap.disk.files["wrap.yaml"].find("new: \"plum 15, sand 11, rust 30\"") != std::string::npos);
  CHECK(wrap.strands() == "3");
}

TEST_CASE("a join read anew adds what was read") {
  Wrap wrap;
  wrap.did(
      {"join", "--ball", "B", "--old", "rust 31, sand 11, plum", "--new", "plum 16, sand 11, rust 30", "--row", "40"});
  CHECK(wrap.strands() == "5");
}

TEST_CASE("an entry counts again once its cancelling is cancelled") {
  Wrap wrap;
  wrap.did({"cancel", "3"});
  CHECK(wrap.strands() == "2");
  wrap.did({"cancel", "5"});
  CHECK(wrap.strands() == "3");
}

TEST_CASE("an entry that doesn't fit is not learnt from") {
  Wrap wrap;
  wrap.disk.files["wrap.yaml"] +=
      "  - {n: 5, at: 2026-03-02T21:00:00Z, did: join, ball: Q, old: \"rust 31, sand 11, plum\"}\n";
  CHECK(wrap.strands() == "3");
}

}  // namespace
}  // namespace ballchange
