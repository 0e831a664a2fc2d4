#include <doctest/doctest.h>

#include "files/learnt.hpp"
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

TEST_CASE("JSON calls each strand of a project what the screen calls it, and one that was told nothing") {
  const std::string said =
      Wrap().run({"measure", "wrap.yaml", "--strand", "sand 4, rust 82, moss 5", "--format", "json"}).out;
  const std::string key = "\"readings\":";
  REQUIRE(said.find(key) != std::string::npos);
  const std::size_t at = said.find(key) + key.size();
  CHECK(said.substr(at, said.find(']', at) + 1 - at) ==
        "[null,\"ball A's outside end\",\"ball A's inside end\",\"ball B's outside end\"]");
}

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
  const std::size_t files = session.disk.files.size();
  const Ran again =
      session.run({"measure", "--add", "orchard.yaml", "--strand", "Plum 30 cm,  sand 11, rust 81, moss"});
  CHECK(again.code == Exit::done);
  CHECK(again.complaints.empty());
  CHECK(again.out.find("Mind      'Plum 30 cm, sand 11, rust 81, moss' is there already") != std::string::npos);
  CHECK(again.out.find("Written   nothing: orchard.yaml holds all of this.\n") != std::string::npos);
  CHECK(session.disk.files["orchard.yaml"] == once);
  CHECK(session.disk.files.size() == files);
}

TEST_CASE("a profile learnt anew without anything new is neither written nor kept once more") {
  Session session;
  REQUIRE(session.run({"measure", "--add", "orchard.yaml", "--strand", "plum 30, sand 11, rust 81, moss"}).code ==
          Exit::done);
  const auto files = session.disk.files;
  const Ran again = session.run({"measure", "--add", "orchard.yaml"});
  CHECK(again.code == Exit::done);
  CHECK(again.out.ends_with("Written   nothing: orchard.yaml holds all of this.\n"));
  CHECK(session.disk.files == files);
}

TEST_CASE("with --add a shortened colour is the yarn's own, and is kept in full") {
  Session session;
  REQUIRE(session.run({"measure", "--add", "orchard.yaml", "--strand", "Rus 40, mo 14, n 70, grey 9, pl 30"}).code ==
          Exit::done);
  CHECK(session.disk.files["orchard.yaml"].find("- \"rust 40, moss 14, navy 70, grey 9, plum 30\"\n") !=
        std::string::npos);
  const Ran unlike = session.run({"measure", "--add", "orchard.yaml", "--strand", "rust 40, mauve 14, navy 70, grey"});
  CHECK(unlike.out.find("this yarn has no mauve. Is entry 2 of strand 2 moss?") != std::string::npos);
}

TEST_CASE("a profile written from a project keeps its readings, each in the order of the repeat") {
  Wrap wrap;
  wrap.did({"ball", "--ball", "C", "--inside", "grey 5, navy 69, moss 15, rust 40", "--outside", "sand 4, rust 83"});
  wrap.did({"measure", "wrap.yaml", "--out", "own.yaml"});
  const std::string own = wrap.disk.files["own.yaml"];
  CHECK(own.find("  before:\n") != std::string::npos);
  CHECK(own.substr(own.find("  strands:")) ==
        "  strands:\n"
        "    - \"plum 15, sand 11, rust 30\"\n"
        "    - \"plum, sand 11, rust 30\"\n"
        "    - \"plum 15, sand 11, rust 30\"\n"
        "    - \"sand 4, rust 83\"\n"
        "    - \"rust 40, moss 15, navy 69, grey 5\"\n");
}

TEST_CASE("one strand more never widens what a project's readings told") {
  Wrap wrap;
  wrap.did({"ball", "--ball", "C", "--outside", "plum 15, sand 11, rust 79, moss 14, navy 71, grey 9, plum 50"});
  wrap.did({"measure", "wrap.yaml", "--out", "own.yaml"});
  const Yarn before = read_profile(wrap.disk.files["own.yaml"], "own.yaml").yarn;
  wrap.did({"measure", "--add", "own.yaml", "--strand", "moss 9, navy 71, grey 9, plum 92, sand 11, rust 30"});
  const Yarn after = read_profile(wrap.disk.files["own.yaml"], "own.yaml").yarn;
  for (std::size_t k = 0; k < before.repeat.size(); ++k) {
    CAPTURE(before.repeat.name_of(k));
    CHECK(after.repeat.sections()[k].plus_minus <= before.repeat.sections()[k].plus_minus);
  }
  CHECK(measured_strands(wrap.disk.files["own.yaml"], "own.yaml").texts.size() == 5);
}

TEST_CASE("a profile whose strands mostly run against it is turned about, and that is told") {
  Session session;
  session.disk.files["lane.yaml"] =
      "format: ballchange yarn 1\nname: Lane\nrepeat:\n  - {colour: plum, length: 92 cm}\n"
      "  - {colour: sand, length: 11 cm}\n  - {colour: rust, length: 80 cm}\n  - {colour: moss, length: 14 cm}\n"
      "measured:\n  strands:\n    - \"rust 40, sand 11, plum 90, moss 14, rust 80, sand 12, plum 20\"\n";
  const Ran ran = session.run({"measure", "--add", "lane.yaml", "--strand",
                               "rust 20, sand 10, plum 93, moss 15, rust 81, sand 11, plum 90, moss 3", "--dry-run"});
  CHECK(ran.code == Exit::done);
  CHECK(ran.out.find("Mind      most strands run against the repeat as it was known") != std::string::npos);
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
