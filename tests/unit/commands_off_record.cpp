#include <doctest/doctest.h>

#include "reading/name.hpp"
#include "session.hpp"
#include "wrap.hpp"

// Where the record has been left behind by the work, or contradicts what is in hand.
namespace ballchange {
namespace {

// Ball A of 125 m reaches to row 111. By the record 80 m and more of it are left at row 40.
std::vector<std::string> left_behind() {
  std::vector<std::string> entries = wrap_entries();
  entries.back() = "row, row: 40, stitch: 25";
  return entries;
}

struct Wrap : Session {
  explicit Wrap(const std::vector<std::string>& entries = left_behind(), const Project& project = wrap_project())
      : start(wrap_file(entries, project)) {
    file() = start;
    environment["COLUMNS"] = "200";
  }
  std::string& file() { return disk.files["wrap.yaml"]; }
  std::string added() { return file().starts_with(start) ? file().substr(start.size()) : "(changed above)"; }

  std::string start;
};

// However lines are wrapped.
bool says(const Ran& ran, std::string_view text) {
  CAPTURE(ran.complaints);
  CAPTURE(ran.out);
  return single_spaced(ran.out).find(single_spaced(text)) != std::string::npos;
}

const std::string kMuch =
    "y the record ball A still holds 80.78 m, but its end is 81 cm from the hook: tell where the hook is with --row "
    "and --stitch (or it is another ball, or a knot)";

TEST_CASE("an end in hand of a ball that is far from finished by the record tells no row") {
  Wrap wrap;
  const Ran ran = wrap.run({"check", "wrap", "--old", kWrapOld});
  CHECK(ran.code == Exit::done);
  CHECK(says(ran, "Mind      B" + kMuch + ". It may change where to cut.\nTake ball C."));
  CHECK_FALSE(says(ran, " of row "));
  CHECK(says(wrap.run({"check", "wrap", "--old", kWrapOld, "--format", "json"}), R"("row":null,"stitch":null)"));
  const Ran told = wrap.run({"check", "wrap", "--old", kWrapOld, "--row", "110", "--stitch", "12"});
  CHECK(says(told, "about stitch 54 of row 110"));
  CHECK_FALSE(says(told, "By the record"));
}

TEST_CASE("a join is not recorded where the record stands while the ball says otherwise") {
  Wrap wrap;
  const std::vector<std::string> advised{"join", "wrap", "--old", kWrapOld};
  std::vector<std::string> as_cut = advised;
  as_cut.insert(as_cut.end(), {"--ball", "B", "--trim-new", "40"});
  for (std::vector<std::string> line : {advised, as_cut}) {
    const Ran ran = wrap.run(line);
    CHECK(ran.code == Exit::content);
    CHECK(ran.complaints == "can't tell where it lands: b" + kMuch + "\n");
    CHECK(wrap.added().empty());
    line.insert(line.end(), {"--row", "110", "--stitch", "12", "--dry-run"});
    CHECK(wrap.run(line).code == Exit::done);
  }
}

TEST_CASE("a join of which only the cut is told is not recorded there either") {
  Wrap wrap;
  const std::vector<std::string> as_cut{"join", "wrap", "--ball", "B", "--trim-new", "40"};
  const Ran ran = wrap.run(as_cut);
  CHECK(ran.code == Exit::content);
  CHECK(ran.complaints ==
        "can't tell where it lands: by the record ball A still holds 80.78 m: tell where the join fell with --row and "
        "--stitch (or it is another ball, or a knot)\n");
  CHECK(wrap.added().empty());
  // Wherever it is told to have fallen, and at a knot, which may lie anywhere; or where the rest was cut off.
  for (const std::vector<std::string>& more : {std::vector<std::string>{"--row", "110", "--stitch", "12"},
                                               {"--row", "40", "--stitch", "25"},
                                               {"--trim-old", "75m"}}) {
    std::vector<std::string> line = as_cut;
    line.insert(line.end(), more.begin(), more.end());
    line.emplace_back("--dry-run");
    CHECK(wrap.run(line).code == Exit::done);
  }
  CHECK(wrap.run({"join", "wrap", "--knot", "--trim-new", "40", "--dry-run"}).code == Exit::done);
}

TEST_CASE("where the old end shows no hook the rest of the ball isn't cut off unasked either") {
  Wrap wrap;
  const char* const no_hook = "rust 30, sand 11, plum";
  const std::string much = "y the record ball A still holds 80.78 m: tell where the ";
  const std::string how = " with --row and --stitch (or it is another ball, or a knot)";
  CHECK(says(wrap.run({"check", "wrap", "--old", no_hook}),
             "Mind      B" + much + "hook is" + how + ". It may change where to cut.\nTake ball C."));
  const std::vector<std::string> advised{"join", "wrap", "--old", no_hook};
  std::vector<std::string> as_cut = advised;
  as_cut.insert(as_cut.end(), {"--ball", "B", "--trim-new", "40"});
  CHECK(wrap.run(advised).complaints == "can't tell where it lands: b" + much + "hook is" + how + "\n");
  CHECK(wrap.run(as_cut).complaints == "can't tell where it lands: b" + much + "join fell" + how + "\n");
  CHECK(wrap.added().empty());
  as_cut.insert(as_cut.end(), {"--trim-old", "75m", "--dry-run"});
  CHECK(wrap.run(as_cut).code == Exit::done);
  // A few rows and what a ball may be out by are nothing to ask about.
  Wrap near(wrap_entries());
  CHECK(near.run({"join", "wrap", "--old", no_hook, "--dry-run"}).code == Exit::done);
  Wrap asked;
  asked.answers = {"110, 12", "n"};
  CHECK(
      says(asked.run({"check", "wrap", "--old", no_hook}), "B" + much + "hook is" + how + ". Where is the hook? row"));
}

TEST_CASE("at a terminal the hook is asked for, and Enter takes what is recorded") {
  struct Case {
    const char* answer;
    const char* lands;
  };
  for (const Case& c : {Case{"110, 12", "stitch 54 of row 110"}, Case{"row 110 stitch 12", "stitch 54 of row 110"},
                        Case{"", "of row 41"}, Case{"109", "of row 110"}}) {
    CAPTURE(c.answer);
    Wrap wrap;
    wrap.answers = {c.answer, "n"};
    const Ran ran = wrap.run({"check", "wrap", "--old", kWrapOld});
    CHECK(says(ran, "Where is the hook? row, stitch (Enter: row 40, stitch 25, as recorded): "));
    CHECK(says(ran, c.lands));
    CHECK_FALSE(says(ran, "Which fresh ball"));
  }
  Wrap wrong;
  wrong.answers = {"there", "110, 61", "110, 12", "n"};
  CHECK(says(wrong.run({"check", "wrap", "--old", kWrapOld}), "stitch 54 of row 110"));
  Wrap knot;
  knot.answers = {"", "n"};
  CHECK(says(knot.run({"check", "wrap", "--knot", "--old", kWrapOld, "--new", "plum 15, sand 11, rust 30"}),
             "Where is the hook?"));
}

TEST_CASE("at a knot the row is taken as recorded, and that is told") {
  Wrap wrap;
  const std::vector<std::string> line{"check", "wrap", "--knot", "--old", kWrapOld, "--new", "rust 50, moss 14, navy"};
  CHECK(says(wrap.run(line), "Mind      The hook is taken to be at row 40, stitch 25, as recorded last"));
}

TEST_CASE("an old end that is not where the ball's other end was read is remarked on") {
  std::vector<std::string> entries = wrap_entries();
  entries.front() = "ball, ball: A, inside: \"grey 4, navy 70, moss\"";
  Wrap other(entries);
  const std::string mind = "Mind      Ball A's inner end was read as grey 4, navy 70, moss. A knot, or another strand";
  CHECK(says(other.run({"check", "wrap", "--old", "rust 30, sand 11, plum 40, hook"}), mind));
  CHECK_FALSE(says(other.run({"check", "wrap", "--old", "grey 5, navy 69, moss 10, hook"}), "Mind"));
  CHECK_FALSE(says(other.run({"check", "wrap", "--knot", "--old", "rust 30, sand 11, plum 40, hook", "--new",
                              "plum 15, sand 11, rust 30"}),
                   "inner end was read"));
}

TEST_CASE("a row that the ball can't reach is recorded, and asked after") {
  std::vector<std::string> entries = wrap_entries();
  Wrap wrap(entries);
  const Ran far = wrap.run({"row", "wrap", "--row", "170"});
  CHECK(far.code == Exit::done);
  CHECK(says(far,
             "Note      ball A reaches only about row 112: was a join not recorded, or is 170 a slip "
             "(ballchange cancel wrap.yaml 8)?\n"));
  CHECK_FALSE(says(far, "Enough"));
  CHECK_FALSE(says(far, "left on ball A"));
  CHECK(says(wrap.run({"log", "wrap", "--format", "json"}), R"("enough":null)"));
  Wrap near(entries);
  const Ran little = near.run({"row", "wrap", "--row", "114"});
  CHECK_FALSE(says(little, "slip"));
  CHECK(says(little, "Yarn      ball A should be about used up; 500 m on 4 balls"));
}

TEST_CASE("a row behind the work is refused with both lines to type") {
  Wrap wrap;
  const Ran mid = wrap.run({"row", "wrap", "--row", "39", "--stitch", "12"});
  CHECK(mid.code == Exit::content);
  CHECK(mid.complaints ==
        "wrap.yaml: row 39, stitch 12 lies before row 40, stitch 25, where the work stands; if it was ravelled back, "
        "type: ballchange rip wrap.yaml --row 38, then ballchange row wrap.yaml --row 39 --stitch 12\n");
  const Ran whole = wrap.run({"row", "wrap", "--row", "39"});
  CHECK(whole.complaints.ends_with("type: ballchange rip wrap.yaml --row 39\n"));
}

TEST_CASE("a ball that came apart is told of until its end is read again") {
  std::vector<std::string> entries = wrap_entries();
  entries.emplace_back("join, ball: B, method: woven, row: 110, stitch: 50");
  Wrap wrap(entries);
  const Ran rip = wrap.run({"rip", "wrap", "--row", "109"});
  CHECK(says(rip, "Read ball B's end again before choosing a ball, and the end at the hook."));
  const std::string mind = "Mind      Ball B came apart from here: read its end again before choosing.";
  CHECK(says(wrap.run({"check", "wrap", "--old", kWrapOld}), mind));
  CHECK_FALSE(says(wrap.run({"check", "wrap", "--old", kWrapOld, "--ball", "B", "--new", "plum 15, sand 11, rust"}),
                   "came apart"));
  REQUIRE(wrap.run({"ball", "wrap", "--ball", "B", "--outside", "plum 15, sand 11, rust 30"}).code == Exit::done);
  CHECK_FALSE(says(wrap.run({"check", "wrap", "--old", kWrapOld}), "came apart"));
}

TEST_CASE("a fresh end that was typed for no ball on record is recorded with its ball") {
  Wrap wrap({"ball, ball: A", "begin, ball: A", "row, row: 110, stitch: 12"});
  wrap.answers = {"y"};
  const Ran ran = wrap.run({"check", "wrap", "--old", kWrapOld, "--new", "plum 15, sand 11, rust 30"});
  CHECK(
      says(ran, "Record it, and ball B with this reading? (y/n) Recorded as entry 4: ball B; outside: plum 15, sand"));
  CHECK(says(ran, "Recorded as entry 5: joined to ball B"));
  CHECK(wrap.added().find("did: ball, ball: B, outside: \"plum 15, sand 11, rust 30\"}") != std::string::npos);
}

TEST_CASE("cancel without a number is told with the project it was given") {
  Wrap wrap;
  CHECK(wrap.run({"cancel", "wrap.yaml"}).complaints ==
        "cancel needs the number of an entry: ballchange cancel wrap.yaml 5; ballchange log wrap.yaml shows them\n");
  CHECK(wrap.run({"cancel", "wrap.yaml", "x"}).complaints ==
        "'x' is no entry's number; the number comes last: ballchange cancel wrap.yaml 5; ballchange log wrap.yaml "
        "shows them\n");
}

TEST_CASE("where rounds are worked, rounds are told") {
  Project project = wrap_project();
  project.piece.working = Working::rounds;
  Wrap wrap(wrap_entries(), project);
  const Ran row = wrap.run({"row", "wrap", "--row", "111"});
  CHECK(says(row, "round 111 finished"));
  CHECK(says(row, "stands at the end of round 111"));
  CHECK(says(wrap.run({"rip", "wrap", "--row", "100"}), "Back      12.34 m of yarn, out of 11 rounds"));
  CHECK_FALSE(says(wrap.run({"log", "wrap"}), " row"));
  CHECK(wrap.run({"row", "wrap", "--row", "111", "--stitch", "61"}).complaints.find("of a round of 60") !=
        std::string::npos);
}

TEST_CASE("a date alone is answered with the time to add") {
  Wrap wrap;
  CHECK(wrap.run({"row", "wrap", "--row", "50", "--at", "2026-11-26"}).complaints ==
        "--at: '2026-11-26' is a date alone; add a time, like 2026-11-26T20:00Z\n");
}

TEST_CASE("yarn that falls short is told with how much is short") {
  Wrap wrap({"ball, ball: A", "begin, ball: A", "row, row: 110, stitch: 0"});
  CHECK(says(wrap.run({"row", "wrap", "--row", "110"}), "Not enough yet for the rows planned: "));
  CHECK(says(wrap.run({"log", "wrap"}), "short, about 69 rows or 1 ball."));
}

TEST_CASE("the line of the file that must change is shown as it must become") {
  Wrap wrap;
  const Ran ran = wrap.run({"start", "stole", "--yarn", "orchard"});
  CHECK(says(ran,
             "let the line 'piece:' of stole.yaml become:\n          piece: {worked: rows, stitches: 60, keep: "
             "each-join}\n"));
}

}  // namespace
}  // namespace ballchange
