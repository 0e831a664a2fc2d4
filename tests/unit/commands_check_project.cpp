#include <doctest/doctest.h>

#include "session.hpp"
#include "wrap.hpp"

// `check` at a ball change of a project. Places: old 133; B 77, C 121, D 247; what comes off is 133 - place - 8 mod
// 276: B 48, C 4, D 154.
namespace ballchange {
namespace {

struct Wrap : Session {
  explicit Wrap(const std::vector<std::string>& entries = wrap_entries(), const Project& project = wrap_project()) {
    disk.files["wrap.yaml"] = wrap_file(entries, project);
    environment["COLUMNS"] = "100";
  }
  Ran check(std::vector<std::string> more = {}) {
    std::vector<std::string> arguments{"check", "wrap.yaml", "--old", kWrapOld};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run(arguments);
  }
  Ran json(std::vector<std::string> more = {}) {
    more.insert(more.end(), {"--format", "json"});
    return check(more);
  }
  std::string& file() { return disk.files["wrap.yaml"]; }
};

bool says(const Ran& ran, std::string_view text) {
  CAPTURE(ran.complaints);
  return ran.out.find(text) != std::string::npos;
}

const std::string kNoTeal =
    "ball C, outside end, entry 1: no colour 'teal' in this yarn: write plum, sand, rust, moss, navy or grey\n";

TEST_CASE("of the fresh balls the one that costs least now is advised, the others are ranked") {
  Wrap wrap;
  const Ran ran = wrap.json();
  CHECK(ran.code == Exit::done);
  CHECK(says(ran, R"("ball":"C","others":[{"ball":"B","discard":48.0},{"ball":"D","discard":154.0}])"));
  CHECK(says(ran, R"("method":"felted","allowance":8.0,"tolerance":3.7,"out_of_step":0.0,"joins":[{"trim_old":0.0,)"
                  R"("trim_new":4.0,"discard":4.0)"));
  // 81 - 4 = 77 cm from the hook to the join's middle: 41.6 stitches on from stitch 12.
  CHECK(says(ran, R"("row":110,"stitch":54)"));
  CHECK(says(ran, R"("waste":{"before":0.0,"after":12.0})"));
  const Ran text = wrap.check();
  CHECK(says(text, "Take ball C. Don't cut yet: dry fit first.\n"));
  CHECK_FALSE(says(text, "so far"));
  CHECK(says(text, "Others    ball B 48 cm, D 1.54 m.\n"));
}

TEST_CASE("a ball named is advised, and what a cheaper one would cost is told") {
  Wrap wrap;
  const Ran ran = wrap.json({"--ball", "B"});
  CHECK(says(ran, R"("ball":"B","others":[{"ball":"C","discard":4.0},{"ball":"D","discard":154.0}])"));
  CHECK(says(ran, R"("trim_new":48.0)"));
  const Ran text = wrap.check({"--ball", "B"});
  CHECK(says(text, "Cheaper   ball C, 4 cm cut off.\n"));
  CHECK(says(text, "Others    ball D 1.54 m.\n"));
  CHECK_FALSE(says(text, "Take ball"));
}

TEST_CASE("an end told with --new is advised, the recorded ones are ranked beside it") {
  Wrap wrap;
  // rust 52: place 131; off comes 133 - 131 - 8 + 276 = 270.
  const Ran ran = wrap.json({"--new", "rust 52, moss 14, navy"});
  CHECK(says(ran, R"("trim_new":270.0)"));
  CHECK(says(ran, R"("ball":null,"others":[{"ball":"C","discard":4.0},{"ball":"B","discard":48.0},)"));
  CHECK(says(wrap.json({"--new", "rust 52, moss 14, navy", "--ball", "E"}), R"("ball":"E","others":[{"ball":"C")"));
}

TEST_CASE("waste goes on from what is on record") {
  std::vector<std::string> entries = wrap_entries();
  entries.emplace_back("swatch, ball: E, length: 1 m");
  entries.emplace_back("join, ball: B, trim_new: 20 cm, shift: 0 cm, row: 111, stitch: 0");
  Wrap wrap(entries);
  // 100 swatch + 20 + 8; then 4 + 8.
  CHECK(says(wrap.check(), " Cut away so far 1.28 m of 625 m."));
  CHECK(says(wrap.json(), R"("waste":{"before":128.0,"after":140.0})"));
}

TEST_CASE("kept from the start, the running shift is worked off as far as the tolerance lets it") {
  Project project = wrap_project();
  project.join.keep_from_the_start = true;
  std::vector<std::string> entries = wrap_entries();
  entries.emplace_back("join, ball: B, trim_new: 20 cm, shift: 3 cm, row: 111, stitch: 0");
  Wrap wrap(entries, project);
  // Two stitches less 1.5 cm: 2.2 of the 3 cm are repeated, 4 - 2.2 come off.
  const Ran ran = wrap.json();
  CHECK(says(ran, R"("out_of_step":3.0)"));
  CHECK(says(ran, R"("discard":1.8,"allowance":8.0,"shift":-2.2,"shift_stitches":-1.1892,"running_shift":0.8)"));
  CHECK(says(wrap.json({"--out-of-step", "0"}), R"("out_of_step":0.0)"));
  CHECK(says(wrap.json({"--keep", "each-join"}), R"("discard":4.0)"));

  entries.back() = "join, ball: B, trim_new: 20 cm, row: 111, stitch: 0";
  Wrap unknown(entries, project);
  const Ran told = unknown.json();
  CHECK(says(told, R"("out_of_step":0.0)"));
  CHECK(told.complaints ==
        "how far the work is out of step isn't known since the join of entry 8, and is taken as nothing; tell it with "
        "--out-of-step\n");
}

TEST_CASE("the gauge in force, where the work stands and how it joins are the project's until options say otherwise") {
  std::vector<std::string> entries = wrap_entries();
  entries.emplace_back("gauge, yarn_per_stitch: 2 cm");
  Wrap wrap(entries);
  // 77 / 2 = 38.5 stitches on from stitch 12.
  CHECK(says(wrap.json(), R"("tolerance":4.0)"));
  CHECK(says(wrap.json(), R"("row":110,"stitch":51)"));
  CHECK(says(wrap.json({"--row", "120", "--stitch", "10"}), R"("row":120,"stitch":49)"));
  CHECK(says(wrap.json({"--row", "120"}), R"("row":121,"stitch":38)"));  // the turn first: (77 - 1.2) / 2 = 37.9
  CHECK(says(wrap.json({"--yarn-per-stitch", "1.85"}), R"("stitch":54)"));
  CHECK(says(wrap.json({"--method", "threaded"}), R"("method":"threaded","allowance":10.0)"));
  CHECK(says(wrap.json({"--allowance", "9"}), R"("method":"felted","allowance":9.0)"));
}

TEST_CASE("the only project of the folder need not be named, nor its ending") {
  Wrap wrap;
  CHECK(wrap.run({"check", "--old", kWrapOld}).code == Exit::done);
  CHECK(wrap.run({"check", "wrap", "--old", kWrapOld}).code == Exit::done);
  CHECK(wrap.run({"place", "--new", "plum 15, sand 11, rust 30"}).out.find("77 cm into plum") != std::string::npos);
}

TEST_CASE("what is missing or can't be is refused with what would be right") {
  struct Case {
    std::vector<std::string> more;
    const char* complaint;
  };
  for (const Case& c : {
           Case{{"--ball", "Q"}, "--ball: there is no ball Q; the project's are A, B, C, D and E\n"},
           Case{{"--ball", "A"}, "--ball: ball A is in the work; name a fresh ball\n"},
           Case{{"--ball", "E"},
                "--ball: the outside end of ball E is not on record; tell it with --new \"plum 15, sand 11, rust "
                "30\"\n"},
           Case{{"--knot"},
                "at a knot both sides are needed: --new \"rust 50, moss 14, navy\" is the side towards the ball\n"},
           Case{{"--yarn-per-stitch", "0"},
                "--yarn-per-stitch: '0' is out of reach: a stitch takes from 0.1 mm to 10 m\n"},
           Case{{"--yarn", "orchard.yaml"}, "a project holds its own yarn: leave out --yarn, or the project\n"},
       }) {
    Wrap wrap;
    const Ran ran = wrap.check(c.more);
    CHECK(ran.code == Exit::content);
    CHECK(ran.complaints == c.complaint);
  }
  Wrap wrap;
  CHECK(wrap.run({"check", "wrap"}).complaints ==
        "check needs the finishing ball's end: --old \"rust 30, sand 11, plum\"\n");
  CHECK(Wrap({"ball, ball: A", "ball, ball: B", "begin, ball: A"}).check().complaints ==
        "no fresh ball's end is on record: tell it with --new \"plum 15, sand 11, rust 30\", or record it with "
        "ballchange ball "
        "wrap.yaml --ball B --outside READING\n");
  CHECK(Wrap({"ball, ball: A", "ball, ball: B", "ball, ball: C", "begin, ball: A", "row, row: 20",
              "join, ball: B, method: felted, row: 60, stitch: 40", "rip, row: 30"})
            .check()
            .complaints ==
        "no fresh ball's end is on record: tell it with --new \"plum 15, sand 11, rust 30\", or record it with "
        "ballchange ball "
        "wrap.yaml --ball C --outside READING; or work on: ball B is joined ahead at row 60, stitch 40\n");
  CHECK(Wrap({"ball, ball: A", "begin, ball: A"}).check().complaints ==
        "no fresh ball is on record: tell its end with --new \"plum 15, sand 11, rust 30\", or add it with ball "
        "first\n");
}

TEST_CASE("a ball that can't be joined as it was read is not ranked") {
  std::vector<std::string> entries = wrap_entries();
  entries[2] = "ball, ball: C, outside: \"rust 30, sand 11, plum 15\"";  // runs the other way
  entries[3] = "ball, ball: D, outside: \"moss 50, sand 30, navy 10\"";  // fits nowhere
  Wrap wrap(entries);
  CHECK(says(wrap.json(), R"("ball":"B","others":[])"));
  const Ran turned = wrap.check({"--ball", "C"});
  CHECK(turned.code == Exit::settles_nothing);
  CHECK(says(turned, "Instead   ball B, 48 cm cut off.\n"));
  entries[1] = "ball, ball: B";
  const Ran none = Wrap(entries).check();
  CHECK(none.code == Exit::settles_nothing);
  CHECK(says(none, "Ball      this is C; no fresh ball can be joined as its end was read.\n"));
}

TEST_CASE("where the old end isn't settled nothing is said against the fresh balls") {
  Wrap wrap;
  const Ran ran = wrap.run({"check", "wrap.yaml", "--old", "rust 30"});
  CHECK(ran.code == Exit::settles_nothing);
  CHECK(says(ran, "Can't tell yet: "));
  CHECK_FALSE(says(ran, "no fresh ball can be joined"));
}

TEST_CASE("a reading on record that can't be read leaves its ball out, a method that can't be stops all") {
  std::vector<std::string> entries = wrap_entries();
  entries[2] = "ball, ball: C, outside: \"teal 62, moss\"";
  Wrap wrap(entries);
  const Ran ran = wrap.json();
  CHECK(says(ran, R"("ball":"B","others":[{"ball":"D",)"));
  CHECK(ran.complaints == "wrap.yaml:21:5: entry 3: " + kNoTeal);
  Project never_felts = wrap_project();
  never_felts.yarn.felts = false;
  const Ran refused = Wrap(wrap_entries(), never_felts).check();
  CHECK(refused.code == Exit::content);
  const std::string why =
      "method: this yarn is not known to felt, so a felted join would come apart; threaded holds in any yarn (or say "
      "`felts: true` in the project's yarn)\n";
  CHECK(refused.complaints == why);
  CHECK(Wrap(wrap_entries(), never_felts).check({"--method", "felted"}).complaints == "--" + why);
}

TEST_CASE("at a terminal the advice can be recorded at once, exactly as shown") {
  Wrap wrap;
  const std::string before = wrap.file();
  wrap.answers = {"perhaps", " Y "};
  const Ran ran = wrap.check();
  CHECK(ran.code == Exit::done);
  CHECK(wrap.disk.locks_held == 0);
  CHECK(says(ran, "Record it? (y/n) Record it? (y/n) Recorded as entry 8"));
  CHECK(says(ran, "Cut away  so far 12 cm of 625 m.\n"));
  CHECK(wrap.file() == before +
                           "  - {n: 8, at: 2026-03-02T19:20:00Z, did: join, ball: C, method: felted, allowance: 8 cm, "
                           "trim_old: 0 cm, trim_new: 4 cm, row: 110, stitch: 54, shift: 0 cm, old: \"rust 30, sand "
                           "11, plum 40, hook\", new: \"rust 62, moss 14, navy\"}\n");
}

TEST_CASE("no, or no answer, leaves the project alone") {
  for (const std::vector<std::string>& answers : {std::vector<std::string>{"n"}, {"no"}, {}}) {
    Wrap wrap;
    const std::string before = wrap.file();
    wrap.answers = answers;
    const Ran ran = wrap.check();
    CHECK(ran.code == Exit::done);
    CHECK(says(ran, "Nothing recorded.\n"));
    CHECK(wrap.file() == before);
  }
}

TEST_CASE("nothing is asked where that isn't wanted or wouldn't help") {
  for (const std::vector<std::string>& more : {std::vector<std::string>{"--no-ask"},
                                               {"--format", "json"},
                                               {"--new", "rust 52, moss 14, navy"},        // of which ball?
                                               {"--new", "rust 30, sand 11, plum 15"}}) {  // turn the ball
    Wrap wrap;
    wrap.answers.emplace();
    CHECK_FALSE(says(wrap.check(more), "Record it?"));
  }
}

TEST_CASE("nothing is locked while the question stands there, and what changes nothing of the advice is no hindrance") {
  Wrap wrap;
  wrap.answers = {"y"};
  const std::string meanwhile = "  - {n: 8, at: 2026-03-01T20:00:00Z, did: note, text: \"meanwhile\"}\n";
  wrap.while_asked = [&] {
    CHECK(wrap.disk.locks_held == 0);
    wrap.file() += meanwhile;
  };
  const Ran ran = wrap.check();
  CHECK(ran.complaints.empty());
  CHECK(ran.code == Exit::done);
  const std::string before = wrap_file(wrap_entries()) + meanwhile;
  CHECK(wrap.file().starts_with(before + "  - {n: 9, "));
  CHECK(wrap.file().find("did: join") != std::string::npos);
}

TEST_CASE("what changes the advice while the question stands there records nothing") {
  const std::string refused =
      "wrap.yaml has changed since the advice was given, so nothing was recorded; check again\n";
  const std::string moved = "  - {n: 8, at: 2026-03-01T20:00:00Z, did: row, row: 117, stitch: 3}\n";
  Wrap wrap;
  wrap.answers = {"y"};
  wrap.while_asked = [&] { wrap.file() += moved; };
  const Ran ran = wrap.check();
  CHECK(ran.code == Exit::file);
  CHECK(ran.complaints == refused);
  CHECK(wrap.file() == wrap_file(wrap_entries()) + moved);

  Wrap edited;
  edited.answers = {"y"};
  edited.while_asked = [&] { edited.file().replace(edited.file().find("1.85"), 4, "1.95"); };
  CHECK(edited.check().code == Exit::file);

  // What is only worth knowing comes after what went wrong.
  std::vector<std::string> entries = wrap_entries();
  entries[2] = "ball, ball: C, outside: \"teal 62, moss\"";
  Wrap noted(entries);
  noted.answers = {"y"};
  noted.while_asked = [&] { noted.file() += moved; };
  CHECK(noted.check().complaints == refused + "Note: wrap.yaml:21:5: entry 3: " + kNoTeal);
}

}  // namespace
}  // namespace ballchange
