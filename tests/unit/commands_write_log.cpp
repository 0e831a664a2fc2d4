#include <doctest/doctest.h>

#include "session.hpp"

// What each command writes and what it answers.

namespace ballchange {
namespace {

const std::string kAt = "at: 2026-03-02T19:20:00Z";

struct Wrap : Session {
  Wrap() {
    ran = run({"start", "wrap", "--yarn", "orchard.yaml", "--stitches", "60", "--rows", "180", "--yarn-per-stitch",
               "1.85", "--yarn-per-turn", "1.2", "--foundation", "130"});
    CAPTURE(ran.complaints);
    REQUIRE(ran.code == Exit::done);
  }
  // What the command adds to the file; the answer is in `ran`.
  std::string added(const std::vector<std::string>& arguments, const std::string& input = {}) {
    std::string before = file();
    if (before.ends_with("log: []\n")) before.replace(before.size() - 4, 4, "\n");
    if (before.ends_with("log:\n\n")) before.pop_back();
    if (before.ends_with("log: \n")) before.replace(before.size() - 2, 2, "\n");
    ran = run(arguments, input);
    CAPTURE(ran.complaints);
    REQUIRE(ran.code == Exit::done);
    REQUIRE(file().starts_with(before));
    return file().substr(before.size());
  }
  std::string& file() { return disk.files["wrap.yaml"]; }
  bool says(const std::string& text) const { return ran.out.find(text) != std::string::npos; }
  Ran ran;
};

TEST_CASE("start keeps what it is told") {
  const Wrap wrap;
  const std::string file = wrap.disk.files.at("wrap.yaml");
  CHECK(file.starts_with("format: ballchange project 1\nunits: cm\nyarn:\n  name: Orchard\n"));
  CHECK(
      file.ends_with("piece: {worked: rows, stitches: 60, rows: 180, yarn_per_stitch: 1.85 cm, yarn_per_turn: 1.2 "
                     "cm, foundation: 130 cm, keep: each-join}\njoin: {}\nlog: []\n"));
}

TEST_CASE("start finds a name for the file") {
  struct Case {
    std::vector<std::string> arguments;
    std::string file;
  };
  const std::vector<Case> cases{
      {{}, "project.yaml"},
      {{"--name", "Harbour wrap"}, "harbour-wrap.yaml"},
      {{"--name", "..."}, "project.yaml"},
      {{"--name", "../etc/passwd"}, "etc-passwd.yaml"},
      {{"--name", "Écharpe n° 2"}, "Écharpe-n°-2.yaml"},
      {{"scarf"}, "scarf.yaml"},
      {{"scarf.yml"}, "scarf.yml"},
      {{"my.scarf", "--name", "Other"}, "my.scarf"},
  };
  for (const Case& c : cases) {
    CAPTURE(c.file);
    Session session;
    std::vector<std::string> arguments{"start", "--yarn", "orchard.yaml"};
    arguments.insert(arguments.end(), c.arguments.begin(), c.arguments.end());
    CHECK(session.run(arguments).code == Exit::done);
    CHECK(session.disk.files.count(c.file) == 1);
  }
}

TEST_CASE("the yarn per stitch follows from whatever was measured") {
  // 276 cm of repeat: 276 / 147 = 1.8776; (112.2 - 1.2) / 60 = 1.85; 112.2 - 60 x 1.85 = 1.2.
  struct Case {
    std::vector<std::string> told;
    std::string written;
  };
  const std::vector<Case> cases{
      {{"--repeat-stitches", "147"}, "yarn_per_stitch: 1.8776 cm"},
      {{"--stitches", "60", "--yarn-per-row", "112.2", "--yarn-per-turn", "1.2"},
       "yarn_per_stitch: 1.85 cm, yarn_per_turn: 1.2 cm"},
      {{"--stitches", "60", "--yarn-per-row", "112.2", "--yarn-per-stitch", "1.85"},
       "yarn_per_stitch: 1.85 cm, yarn_per_turn: 1.2 cm"},
      {{"--stitches", "60", "--yarn-per-row", "111"}, "yarn_per_stitch: 1.85 cm"},
      {{"--units", "in", "--repeat-stitches", "147"}, "yarn_per_stitch: 0.7392 in"},
      {{"--yarn-per-stitch", "1.85", "--repeat-stitches", "147"}, "yarn_per_stitch: 1.85 cm"},
  };
  for (const Case& c : cases) {
    CAPTURE(c.written);
    Session session;
    std::vector<std::string> arguments{"start", "--yarn", "orchard.yaml"};
    arguments.insert(arguments.end(), c.told.begin(), c.told.end());
    const Ran ran = session.run(arguments);
    CAPTURE(ran.complaints);
    CHECK(ran.code == Exit::done);
    CHECK(session.disk.files["project.yaml"].find(c.written) != std::string::npos);
  }
}

TEST_CASE("an unusual allowance is remarked on and kept") {
  Session session;
  const Ran ran = session.run({"start", "--yarn", "orchard.yaml", "--method", "felted", "--allowance", "30"});
  CHECK(ran.code == Exit::done);
  CHECK(ran.out.find("an allowance of 30 cm is not usual for a felted join") != std::string::npos);
  CHECK(session.disk.files["project.yaml"].find("join: {method: felted, allowance: 30 cm}") != std::string::npos);
}

TEST_CASE("a ball needs nothing, not even a name") {
  Wrap wrap;
  CHECK(wrap.added({"ball"}) == "  - {n: 1, " + kAt + ", did: ball, ball: A}\n");
  CHECK(wrap.added({"ball", "--ball", "C"}) == "  - {n: 2, " + kAt + ", did: ball, ball: C}\n");
  CHECK(wrap.added({"ball"}) == "  - {n: 3, " + kAt + ", did: ball, ball: B}\n");
  CHECK(wrap.added({"ball"}) == "  - {n: 4, " + kAt + ", did: ball, ball: D}\n");
  for (int i = 0; i < 22; ++i) static_cast<void>(wrap.added({"ball"}));
  CHECK(wrap.added({"ball"}) == "  - {n: 27, " + kAt + ", did: ball, ball: AA}\n");
}

TEST_CASE("all of a ball is kept, and where its ends lie is told") {
  Wrap wrap;
  wrap.disk.files["end.txt"] = "rust 30, sand 11,\nplum 40\n";
  const std::string entry = wrap.added({"ball", "--mass", "50.2g", "--dye-lot", "17", "--outside",
                                        "plum 15, sand 11, rust 30", "--inside", "@end.txt", "--wound", "mill"});
  CHECK(entry == "  - {n: 1, " + kAt +
                     ", did: ball, ball: A, mass: 50.2 g, dye_lot: \"17\", outside: \"plum 15, sand 11, rust 30\", "
                     "inside: \"rust 30, sand 11, plum 40\", wound: mill}\n");
  CHECK(wrap.says("Outside   77 cm into plum, give or take 1.5 cm."));
  CHECK(wrap.says("Inside    30 cm into rust, give or take 1.5 cm."));
}

TEST_CASE("a ball told again gains what is new") {
  Wrap wrap;
  static_cast<void>(wrap.added({"ball"}));
  CHECK(wrap.added({"ball", "--ball", "A", "--mass", "51", "--from", "inside"}) ==
        "  - {n: 2, " + kAt + ", did: ball, ball: A, mass: 51 g, from: inside}\n");
  CHECK(wrap.added({"ball", "--ball", "A", "--begin"}) == "  - {n: 3, " + kAt + ", did: begin, ball: A}\n");
}

TEST_CASE("a reading in other units than the project's is written in the project's") {
  Wrap wrap;
  CHECK(wrap.added({"ball", "--units", "in", "--outside", "plum 6, sand 4, rust 12"}) ==
        "  - {n: 1, " + kAt + ", did: ball, ball: A, outside: \"plum 15.24, sand 10.16, rust 30.48\"}\n");
  CHECK(wrap.added({"ball", "--outside", "  pl 15, sa 11, ru 30+ "}) ==
        "  - {n: 2, " + kAt + ", did: ball, ball: B, outside: \"pl 15, sa 11, ru 30+\"}\n");
}

TEST_CASE("a reading that fits nowhere is not recorded") {
  Wrap wrap;
  const auto before = wrap.disk.files;
  const Ran ran = wrap.run({"ball", "--outside", "moss 50, sand 30, navy 10"});
  CHECK(ran.code == Exit::settles_nothing);
  CHECK(ran.out.starts_with("Nothing was recorded.\nOutside   fits nowhere on the repeat: "));
  const Ran json = wrap.run({"ball", "--outside", "moss 50, sand 30, navy 10", "--format", "json"});
  CHECK(json.out.starts_with(R"({"format":"ballchange entry 1","entry":null,"entries":[],"totals":{)"));
  CHECK(wrap.disk.files == before);
}

TEST_CASE("a reading that does not settle yet is recorded, with the question") {
  Wrap wrap;
  static_cast<void>(wrap.added({"ball", "--outside", "plum 15, rust 30"}));
  CHECK(wrap.says("can't tell yet: is there a short piece of sand"));
}

// Loose end at 77 (15 before plum ends); foundation 130.
TEST_CASE("the place of the first stitch says what stays out of the work") {
  struct Case {
    std::string place, trim;
  };
  const std::vector<Case> cases{
      {"2 before rust ends", "250 cm"},    // 181 - 130 - 77 = -26, + 276
      {"at rust", "172 cm"},               // 103 - 207 = -104, + 276
      {"rust begins", "172 cm"},           //
      {"rust ends", "252 cm"},             // 183 - 207 = -24, + 276
      {"5 after rust begins", "177 cm"},   //
      {"at rust ends", "252 cm"},          //
      {"rust 26", "198 cm"},               // 129 - 207 = -78, + 276
      {"207", "0 cm"},                     //
      {"210", "3 cm"},                     //
      {"1in before navy ends", "57.5 cm"}  // 267 - 2.54 - 207 = 57.46
  };
  for (const Case& c : cases) {
    CAPTURE(c.place);
    Wrap wrap;
    const std::string entries =
        wrap.added({"ball", "--outside", "plum 15, sand 11, rust 30", "--begin", "--first-stitch", c.place});
    CHECK(entries.ends_with("  - {n: 2, " + kAt + ", did: begin, ball: A, trim_new: " + c.trim + "}\n"));
  }
}

TEST_CASE("how to begin is told in yarn and in stitches to unpick") {
  Wrap wrap;
  static_cast<void>(
      wrap.added({"ball", "--outside", "plum 15, sand 11, rust 30", "--begin", "--first-stitch", "rust 26"}));
  // 198 cm at 130 cm / 60 of foundation a stitch: 91.4.
  CHECK(
      wrap.says("Begin     leave 1.98 m at the loose end before the foundation, or make about\n"
                "          91 stitches more than you need and unpick them from the beginning."));
}

TEST_CASE("without the place of its end no ball begins at a colour") {
  Wrap wrap;
  const auto before = wrap.disk.files;
  const Ran ran = wrap.run({"ball", "--outside", "plum 15, rust 30", "--begin", "--first-stitch", "at rust"});
  CHECK(ran.code == Exit::settles_nothing);
  CHECK(ran.out.find("Begin     not yet: is there a short piece of sand") != std::string::npos);
  CHECK(wrap.disk.files == before);
}

TEST_CASE("row, seen colours, note and gauge") {
  Wrap wrap;
  CHECK(wrap.added({"row", "--row", "40", "--stitch", "12"}) ==
        "  - {n: 1, " + kAt + ", did: row, row: 40, stitch: 12}\n");
  // 130 + 39 x 112.2 + 12 x 1.85 = 4528 cm
  CHECK(wrap.says("Work      stands at row 40, stitch 12, with 45.28 m of yarn in it."));
  CHECK(wrap.added({"row", "--seen", "Row 39 stitch 14 nav begins", "--seen", "row 40 stitch 12 navy ends"}) ==
        "  - {n: 2, " + kAt +
            ", did: row, row: 40, stitch: 12, seen: [row 39 stitch 14 navy begins, row 40 stitch 12 navy ends]}\n");
  CHECK(wrap.added({"note", "ball B: a little thinner"}) ==
        "  - {n: 3, " + kAt + ", did: note, text: \"ball B: a little thinner\"}\n");
  CHECK(wrap.added({"note", "wrap", "dropped # a stitch"}) ==
        "  - {n: 4, " + kAt + ", did: note, text: \"dropped # a stitch\"}\n");
  CHECK(wrap.added({"gauge", "--yarn-per-stitch", "1.9", "--stitches-in-10cm", "18.5", "--size", "4 mm"}) ==
        "  - {n: 5, " + kAt + ", did: gauge, yarn_per_stitch: 1.9 cm, stitches_in_10cm: 18.5, size: \"4 mm\"}\n");
  CHECK(wrap.says("Row       takes 1.15 m of yarn, 3 % more than before."));
}

TEST_CASE("a remark that is a sentence keeps its one full stop") {
  Wrap wrap;
  static_cast<void>(wrap.added({"note", "The second lot is darker."}));
  CHECK(wrap.says("Recorded as entry 1: The second lot is darker.\n"));
}

TEST_CASE("ravelling back tells what comes back and what becomes of the joins") {
  Wrap wrap;
  wrap.file().replace(wrap.file().find("log: []"), 7,
                      "log:\n  - {n: 1, " + kAt + ", did: ball, ball: A}\n  - {n: 2, " + kAt +
                          ", did: ball, ball: B}\n  - {n: 3, " + kAt + ", did: ball, ball: C}\n  - {n: 4, " + kAt +
                          ", did: begin, ball: A}\n  - {n: 5, " + kAt +
                          ", did: join, ball: B, method: felted, allowance: 8 cm, row: 20, stitch: 30}\n  - {n: 6, " +
                          kAt + ", did: join, ball: C, method: woven, allowance: 25 cm, row: 30, stitch: 0}\n");
  static_cast<void>(wrap.added({"row", "--row", "40"}));
  CHECK(wrap.added({"rip", "--row", "10"}) == "  - {n: 8, " + kAt + ", did: rip, row: 10}\n");
  CHECK(wrap.says("Back      33.66 m of yarn, out of 30 rows, to be worked again."));  // 30 x 112.2
  CHECK(wrap.says("the join of balls A and B (entry 5) stays joined (felted) and lands"));
  CHECK(wrap.says("the join of balls B and C (entry 6) comes apart (woven)"));
  static_cast<void>(wrap.added({"row", "--row", "25"}));
  CHECK(wrap.says("the join of balls A and B (entry 5) is in the work now."));
}

TEST_CASE("a cancelled entry counts for nothing, until its cancelling is cancelled") {
  Wrap wrap;
  static_cast<void>(wrap.added({"row", "--row", "40"}));
  static_cast<void>(wrap.added({"row", "--row", "50"}));
  CHECK(wrap.added({"cancel", "2"}) == "  - {n: 3, " + kAt + ", did: cancel, entry: 2}\n");
  CHECK(wrap.says("Was       row 50 finished."));
  CHECK(wrap.says("Work      stands at the end of row 40"));
  CHECK(wrap.run({"cancel", "2"}).complaints == "entry 2 is cancelled already\n");
  static_cast<void>(wrap.added({"cancel", "wrap.yaml", "3"}));
  CHECK(wrap.says("So        entry 2 counts again."));
  CHECK(wrap.says("Work      stands at the end of row 50"));
}

TEST_CASE("the remedy for an entry in the way works, back to front") {
  Wrap wrap;
  static_cast<void>(wrap.added({"ball", "--begin"}));
  const Ran refused = wrap.run({"cancel", "1"});
  CHECK(refused.complaints.ends_with("cancel entry 2 first\n"));
  static_cast<void>(wrap.added({"cancel", "2"}));
  static_cast<void>(wrap.added({"cancel", "1"}));
}

TEST_CASE("what would count again, but lacks what was cancelled since, is told with the cancel to take back first") {
  Wrap wrap;
  static_cast<void>(wrap.added({"ball", "--begin"}));
  static_cast<void>(wrap.added({"ball", "--ball", "C"}));
  static_cast<void>(wrap.added({"row", "--row", "10"}));
  static_cast<void>(wrap.added({"join", "--ball", "C", "--trim-new", "4"}));
  static_cast<void>(wrap.added({"cancel", "5"}));  // the join: entry 6
  static_cast<void>(wrap.added({"cancel", "3"}));  // its ball: entry 7
  const Ran refused = wrap.run({"cancel", "6"});
  CHECK(refused.complaints ==
        "wrap.yaml: entry 5 would count again and would not fit (ball C was never added; add it with ball first); "
        "cancel entry 7 first\n");
  static_cast<void>(wrap.added({"cancel", "7"}));
  static_cast<void>(wrap.added({"cancel", "6"}));
}

TEST_CASE("JSON has the entries and what they make") {
  Wrap wrap;
  const Ran ran = wrap.run({"ball", "--mass", "50.2g", "--begin", "--trim-new", "1in", "--format", "json"});
  CHECK(ran.out.starts_with(
      R"({"format":"ballchange entry 1","entry":{"n":1,"at":"2026-03-02T19:20:00Z","did":"ball","ball":"A","mass":50.2},)"
      R"("entries":[{"n":1,)"));
  CHECK(ran.out.find(R"({"n":2,"at":"2026-03-02T19:20:00Z","did":"begin","ball":"A","trim_new":2.54}])") !=
        std::string::npos);
  CHECK(ran.out.find(R"("totals":{"joins":0,)") != std::string::npos);
  CHECK(ran.out.find(R"("recorded":true)") != std::string::npos);
}

TEST_CASE("hostile names reach no screen raw") {
  Wrap wrap;
  const Ran ran = wrap.run({"note", "a\x1b[31mb"});
  CHECK(ran.code == Exit::content);
  CHECK(ran.complaints.find('\x1b') == std::string::npos);
  const Ran long_name = wrap.run({"ball", "--ball", std::string(100'000, 'x')});
  CHECK(long_name.code == Exit::content);
  CHECK(long_name.complaints.size() < 500);
}

TEST_CASE("a yarn in stitches needs no length at all") {
  Session session;
  session.disk.files["tally.yaml"] =
      "format: ballchange yarn 1\nname: Tally\nunits: st\nrepeat:\n  - {colour: clover, length: 40}\n"
      "  - {colour: chalk, length: 5}\n  - {colour: dock, length: 30}\n";
  CHECK(session.run({"start", "--yarn", "tally.yaml", "--stitches", "60"}).code == Exit::done);
  CHECK(session.disk.files["project.yaml"].find("units: st\n") != std::string::npos);
  const Ran ball = session.run({"ball", "--outside", "clover 12, chalk 5, dock 20", "--begin", "--format", "json"});
  CAPTURE(ball.complaints);
  CHECK(ball.code == Exit::done);
  CHECK(ball.out.find(R"("unit":"st")") != std::string::npos);
  CHECK(session.run({"row", "--row", "3"}).out.find("180 stitches of yarn in it") != std::string::npos);
  const Ran gauge = session.run({"gauge", "--yarn-per-stitch", "1.9cm"});
  CAPTURE(gauge.complaints);
  CHECK(gauge.code == Exit::done);
}

}  // namespace
}  // namespace ballchange
