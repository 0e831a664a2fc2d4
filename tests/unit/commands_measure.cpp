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

TEST_CASE("a shared profile is not written over, but may be learnt from into one's own") {
  Session session;
  const std::string shared = "/usr/share/ballchange/profiles/elm.yaml";
  const std::string held = session.disk.files[shared] = write_profile(orchard());
  const Ran refused = session.run({"measure", "--add", "elm", "--strand", "plum 30, sand 11, rust 81, moss"});
  CHECK(refused.code == Exit::content);
  CHECK(refused.complaints ==
        "--add: /usr/share/ballchange/profiles/elm.yaml is shared by all who use this computer and stays as it is; "
        "write one of your own: --out elm.yaml\n");
  const Ran written =
      session.run({"measure", "--add", "elm", "--out", "elm", "--strand", "plum 30, sand 11, rust 81, moss"});
  CHECK(written.code == Exit::done);
  CHECK(session.disk.files[shared] == held);
  CHECK(session.disk.files["elm.yaml"].find("strands:") != std::string::npos);
}

TEST_CASE("the repeat that was told counts each time strands are added, and once") {
  const std::string one = "plum 30, sand 11, rust 81, moss", other = "rust 20, moss 15, navy 71, grey 9, plum 50";
  Session together;
  REQUIRE(together.run({"measure", "--add", "orchard.yaml", "--strand", one, "--strand", other}).code == Exit::done);
  Session apart;
  for (const std::string& strand : {one, other}) {
    REQUIRE(apart.run({"measure", "--add", "orchard.yaml", "--strand", strand}).code == Exit::done);
  }
  CHECK(apart.disk.files["orchard.yaml"] == together.disk.files["orchard.yaml"]);
}

TEST_CASE("a strand told again, however it is spelt, changes nothing") {
  Session session;
  REQUIRE(session.run({"measure", "--add", "orchard.yaml", "--strand", "plum 30, sand 11, rust 81, moss"}).code ==
          Exit::done);
  const std::string once = session.disk.files["orchard.yaml"];
  const Ran again =
      session.run({"measure", "--add", "orchard.yaml", "--strand", "Plum 30 cm,  sand 11, rust 81, moss"});
  CHECK(again.code == Exit::done);
  CHECK(again.complaints ==
        "--strand: 'Plum 30 cm,  sand 11, rust 81, moss' is there already and counts once; tell only what was measured "
        "anew\n");
  CHECK(session.disk.files["orchard.yaml"] == once);
}

TEST_CASE("more than can be learnt from in good time is refused") {
  Session session;
  std::vector<std::string> arguments{"measure"};
  for (int strand = 0; strand < 11; ++strand) {
    std::string text = "plum " + std::to_string(strand + 1);
    for (int n = 0; n < 495; ++n) text += ", sand 11, plum 92";
    arguments.insert(arguments.end(), {"--strand", text});
  }
  const Ran ran = session.run(arguments);
  CHECK(ran.code == Exit::content);
  CHECK(ran.complaints ==
        "the strands have 10901 colours in all, which takes too long; 10000 at most: leave some strands out, a dozen "
        "repeats tell enough\n");
}

}  // namespace
}  // namespace ballchange
