#include <doctest/doctest.h>

#include "session.hpp"
#include "wrap.hpp"

// `join`: what check advises, or what was really cut. Places: old 133; B 77, C 121, D 247.
namespace ballchange {
namespace {

struct Wrap : Session {
  explicit Wrap(const std::vector<std::string>& entries = wrap_entries(), const Project& project = wrap_project())
      : start(wrap_file(entries, project)) {
    file() = start;
    environment["COLUMNS"] = "100";
  }
  Ran join(std::vector<std::string> more) {
    std::vector<std::string> arguments{"join", "wrap.yaml"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run(arguments);
  }
  std::string& file() { return disk.files["wrap.yaml"]; }
  // What stands in the file beyond what it held at first.
  std::string added() { return file().starts_with(start) ? file().substr(start.size()) : "(changed above)"; }

  std::string start;
};

bool says(const Ran& ran, std::string_view text) {
  CAPTURE(ran.complaints);
  CAPTURE(ran.out);
  return ran.out.find(text) != std::string::npos;
}

const std::string kEntry = "  - {n: 8, at: 2026-03-02T19:20:00Z, did: join, ";

TEST_CASE("the line of check with join in its place records its first advice") {
  Wrap wrap;
  const Ran ran = wrap.join({"--old", kWrapOld});
  CHECK(ran.code == Exit::done);
  CHECK(wrap.added() == kEntry +
                            "ball: C, method: felted, allowance: 8 cm, trim_old: 0 cm, trim_new: 4 cm, row: 110, "
                            "stitch: 54, shift: 0 cm, old: \"rust 30, sand 11, plum 40, hook\", new: \"rust 62, moss "
                            "14, navy\"}\n");
  CHECK(says(ran, "Recorded as entry 8: joined to ball C"));
  CHECK(says(ran,
             "Lands     26 cm into rust, about stitch 54 of row 110 (give or take 3). Afterwards rust makes about\n"
             "          43 stitches: count them.\n"));
  CHECK(says(ran, "Cut away  so far 12 cm of 625 m.\n"));
  // The fold agrees: C is in the work, its yarn less 4 cm and the 8 cm of the join.
  CHECK(wrap.run({"log", "wrap", "--format", "json"})
            .out.find(R"("by_cause":{"begin":0.0,"step":4.0,"allowance":8.0,"knots":0.0,"swatches":0.0})") !=
        std::string::npos);
}

TEST_CASE("the K-th way to cut is recorded, and none that isn't there") {
  Wrap wrap;
  REQUIRE(wrap.join({"--old", kWrapOld, "--ball", "B", "--take", "2"}).code == Exit::done);
  // The other share of the same 48 cm.
  CHECK(wrap.added().find("ball: B, method: felted, allowance: 8 cm, trim_old: ") != std::string::npos);
  CHECK(wrap.added().find("trim_old: 0 cm") == std::string::npos);
  CHECK(wrap.added().find("shift: 0 cm") != std::string::npos);
  const Ran none = wrap.join({"--old", kWrapOld, "--take", "9"});
  CHECK(none.code == Exit::content);
  CHECK(none.complaints.starts_with("--take: there "));
}

TEST_CASE("what is no cut is told as check tells it, and not recorded") {
  for (const char* text : {"rust 30, sand 11, plum 15", "moss 50, sand 30, navy 10", "rust 30"}) {
    CAPTURE(text);
    Wrap wrap;
    const Ran ran = wrap.join({"--old", kWrapOld, "--new", text, "--ball", "E"});
    CHECK(ran.code == Exit::settles_nothing);
    CHECK(wrap.file() == wrap.start);
    CHECK(says(wrap.join({"--old", kWrapOld, "--new", text, "--ball", "E", "--format", "json"}),
               R"({"format":"ballchange check 1")"));
    CHECK(wrap.join({"--old", kWrapOld, "--new", text, "--ball", "E", "--dry-run"}).code == Exit::settles_nothing);
  }
}

TEST_CASE("an end told with --new needs its ball's name while several are fresh") {
  Wrap wrap;
  const Ran ran = wrap.join({"--old", kWrapOld, "--new", "rust 52, moss 14, navy"});
  CHECK(ran.code == Exit::content);
  CHECK(ran.complaints == "which ball is joined? Tell it with --ball: B, C, D or E\n");
  CHECK(wrap.file() == wrap.start);
}

TEST_CASE("a cut that leaves too little loose yarn to join is asked about") {
  Wrap wrap;  // 81 cm hang loose, the join takes 8
  const Ran ran = wrap.join({"--ball", "B", "--trim-old", "75", "--trim-new", "30", "--old", kWrapOld});
  CAPTURE(ran.out);
  CHECK(says(ran, "81 cm hung loose, 75 cm of it came off, and the join takes 8 cm: is one of them a slip"));
  Wrap enough;
  CHECK_FALSE(says(enough.join({"--ball", "B", "--trim-old", "73", "--trim-new", "30", "--old", kWrapOld}), "slip"));
}

TEST_CASE("what was really cut is recorded, its shift worked out where both ends were read") {
  struct Case {
    std::vector<std::string> arguments;
    const char* entry;
  };
  for (const Case& c : {
           // 77 - 133 + 10 + 30 + 8
           Case{{"--ball", "B", "--trim-old", "10", "--trim-new", "30", "--row", "112", "--stitch", "3", "--old",
                 kWrapOld},
                "ball: B, method: felted, allowance: 8 cm, trim_old: 10 cm, trim_new: 30 cm, row: 112, stitch: 3, "
                "shift: -8 cm, old: \"rust 30, sand 11, plum 40, hook\", new: \"plum 15, sand 11, rust 30\"}\n"},
           // Where it fell, by the hook: 81 - 10 - 4 = 67 cm on, 36.2 stitches from stitch 12
           Case{{"--ball", "B", "--trim-old", "10", "--trim-new", "30", "--old", kWrapOld},
                "ball: B, method: felted, allowance: 8 cm, trim_old: 10 cm, trim_new: 30 cm, row: 110, stitch: 48, "
                "shift: -8 cm, old: \"rust 30, sand 11, plum 40, hook\", new: \"plum 15, sand 11, rust 30\"}\n"},
           // 131 - 133 + 5 in the join, another way than usual; without a hook all that was measured hangs loose: 41 -
           // 2.5 = 38.5 cm on, 20.8 stitches
           Case{{"--ball", "E", "--trim-new", "0", "--old", "rust 30, sand 11, plum", "--new", "rust 52, moss 14, navy",
                 "--method", "threaded", "--allowance", "5"},
                "ball: E, method: threaded, allowance: 5 cm, trim_new: 0 cm, row: 110, stitch: 33, at_least: true, "
                "shift: 3 cm, old: "
                "\"rust 30, sand 11, plum\", new: \"rust 52, moss 14, navy\"}\n"},
           Case{{"--ball", "B", "--trim-new", "30cm"}, "ball: B, method: felted, allowance: 8 cm, trim_new: 30 cm}\n"},
           // An end that settles nothing tells no shift.
           Case{{"--ball", "E", "--trim-new", "2 st", "--old", kWrapOld, "--new", "rust 30"},
                "ball: E, method: felted, allowance: 8 cm, trim_new: 2 st, row: 110, stitch: 54, old: \"rust 30, sand "
                "11, plum 40, hook\", "
                "new: rust 30}\n"},
       }) {
    Wrap wrap;
    const Ran ran = wrap.join(c.arguments);
    CAPTURE(ran.complaints);
    CHECK(ran.code == Exit::done);
    CHECK(wrap.added() == kEntry + c.entry);
  }
}

TEST_CASE("more cut off than the ball held is recorded, and asked after with the line that takes it back") {
  // By the record 2.48 m of A are left, of a ball that may hold 6.25 m more; B is fresh, of 125 m.
  struct Case {
    std::vector<std::string> cut;
    const char* asked;
  };
  for (const Case& c : {
           Case{{"--ball", "B", "--trim-new", "130m"}, "ball B held only 125 m: is 130 m off the new end"},
           Case{{"--ball", "B", "--trim-new", "124.97m"}, "ball B held only 125 m: is 124.97 m off the new end"},
           Case{{"--ball", "B", "--trim-old", "9m"}, "ball A held only 2.48 m: is 9 m off the old end"},
           Case{{"--knot", "--trim-old", "5m", "--trim-new", "4m"}, "ball A held only 2.48 m: is 9 m at the knot"},
       }) {
    Wrap wrap;
    wrap.environment["COLUMNS"] = "200";
    const Ran ran = wrap.join(c.cut);
    CAPTURE(c.asked);
    CHECK(ran.code == Exit::done);
    CHECK(says(ran, fmt::format("Note      by the record {} a slip (ballchange cancel wrap.yaml 8)?\n", c.asked)));
    CHECK(wrap.run({"cancel", "wrap.yaml", "8"}).code == Exit::done);
    std::vector<std::string> dry = c.cut;
    dry.emplace_back("--dry-run");
    CHECK(says(wrap.join(dry), fmt::format("Note      by the record {} a slip?\n", c.asked)));
  }
  for (const std::vector<std::string>& cut : {std::vector<std::string>{"--ball", "B", "--trim-new", "124.95m"},
                                              {"--ball", "B", "--trim-old", "8.65m"},
                                              {"--knot", "--trim-old", "5m", "--trim-new", "3.6m"}}) {
    Wrap wrap;
    const Ran ran = wrap.join(cut);
    CHECK(ran.code == Exit::done);
    CHECK_FALSE(says(ran, "slip"));
  }
}

TEST_CASE("a knot is recorded of the ball in the work: cut out, or left") {
  // The sides of a knot at place 133: below it the repeat goes on there, or 56 cm further back.
  Wrap left;
  REQUIRE(left.join({"--knot", "--old", kWrapOld, "--new", "rust 50, moss 14, navy"}).code == Exit::done);
  // 81 cm from the hook: stitch 12 + 43.8.
  CHECK(left.added() == kEntry +
                            "ball: A, knot: true, row: 110, stitch: 56, shift: 0 cm, old: \"rust 30, sand 11, plum "
                            "40, hook\", new: \"rust 50, moss 14, navy\"}\n");
  Wrap cut;
  REQUIRE(cut.join({"--knot", "--old", kWrapOld, "--new", "plum 15, sand 11, rust 30"}).code == Exit::done);
  CHECK(cut.added().find("ball: A, knot: true, method: felted, allowance: 8 cm, trim_old: 0 cm, trim_new: 48 cm") !=
        std::string::npos);
  Wrap untold;
  REQUIRE(untold.join({"--knot", "--row", "111", "--stitch", "4"}).code == Exit::done);
  CHECK(untold.added() == kEntry + "ball: A, knot: true, row: 111, stitch: 4}\n");
}

TEST_CASE("in inches readings and lengths are recorded so that the project reads them back") {
  Wrap wrap;
  // The same ends in inches: 30, 11 and 40 cm; 15, 11 and 30 cm.
  const Ran ran = wrap.join({"--units", "in", "--old", "rust 11.811, sand 4.331, plum 15.748, hook", "--new",
                             "plum 5.9055, sand 4.331, rust 11.811", "--ball", "E"});
  CAPTURE(ran.complaints);
  REQUIRE(ran.code == Exit::done);
  CHECK(wrap.added().find("old: \"rust 29.9999, sand 11.0007, plum 39.9999, hook\", new: \"plum 15, sand 11.0007, "
                          "rust 29.9999\"") != std::string::npos);
}

TEST_CASE("advice is taken from the project as it stands under the lock") {
  Wrap wrap;
  bool meanwhile = true;
  wrap.disk.taken = [&] {
    if (meanwhile) wrap.file() += "  - {n: 8, at: 2026-03-01T20:00:00Z, did: join, ball: C, row: 110, stitch: 20}\n";
    meanwhile = false;
    return false;
  };
  REQUIRE(wrap.join({"--old", kWrapOld, "--row", "110", "--stitch", "20"}).code == Exit::done);
  CHECK(wrap.added().find("n: 9, at: 2026-03-02T19:20:00Z, did: join, ball: B, ") != std::string::npos);
}

TEST_CASE("with --dry-run nothing is written") {
  Wrap wrap;
  const Ran ran = wrap.join({"--old", kWrapOld, "--dry-run"});
  CHECK(ran.code == Exit::done);
  CHECK(says(ran, "Would be entry 8: joined to ball C"));
  CHECK(wrap.file() == wrap.start);
}

TEST_CASE("as JSON the entry and the totals with it are told") {
  Wrap wrap;
  const Ran ran = wrap.join({"--old", kWrapOld, "--format", "json"});
  CHECK(says(ran,
             R"({"format":"ballchange entry 1","entry":{"n":8,"at":"2026-03-02T19:20:00Z","did":"join","ball":"C",)"
             R"("method":"felted","allowance":8.0,"trim_old":0.0,"trim_new":4.0,"row":110,"stitch":54,"shift":0.0)"));
  CHECK(says(ran, R"("totals":{"joins":1,"knots_left":0,"discard":4.0,"allowance":8.0,"waste":12.0)"));
}

TEST_CASE("what is missing or can't be is refused, and nothing written") {
  struct Case {
    std::vector<std::string> arguments;
    const char* complaint;
  };
  for (const Case& c : {
           Case{{},
                "join needs both ends as check does, --old \"rust 30, sand 11, plum\", or what was cut: --ball C "
                "--trim-old 0 --trim-new 48\n"},
           Case{{"--take", "2", "--trim-new", "3"},
                "--take records what check advised, --trim-old and --trim-new what was cut instead: give one or the "
                "other\n"},
           Case{{"--trim-new", "3"}, "which ball is joined? Tell it with --ball: B, C, D or E\n"},
           Case{{"--ball", "Q", "--trim-new", "3"}, "--ball: there is no ball Q; the project's are A, B, C, D and E\n"},
           Case{{"--ball", "A", "--trim-new", "3"},
                "wrap.yaml: ball A is being worked already; tell a knot inside it with --knot, or name the fresh "
                "ball\n"},
           Case{{"--ball", "C", "--trim-new", "3", "--stitch", "4"},
                "--stitch says little without its row: give --row too\n"},
       }) {
    Wrap wrap;
    const Ran ran = wrap.join(c.arguments);
    CAPTURE(ran.out);
    CHECK(ran.code == Exit::content);
    CHECK(ran.complaints == c.complaint);
    CHECK(wrap.file() == wrap.start);
  }
}

}  // namespace
}  // namespace ballchange
