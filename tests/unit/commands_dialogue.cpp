// Long: each conversation stands whole: questions, answers, and what comes of them.
#include <doctest/doctest.h>

#include "console/answered.hpp"
#include "session.hpp"
#include "wrap.hpp"

// Asking for what a command line leaves out. Places and costs as in commands_check_project.cpp: of the wrap's fresh
// balls B costs 48 cm, C 4 cm, D 154 cm, and E was never read.
namespace ballchange {
namespace {

struct Sitting : Session {
  explicit Sitting(std::vector<std::string> typed, const std::vector<std::string>& entries = wrap_entries()) {
    disk.files["wrap.yaml"] = wrap_file(entries);
    environment["COLUMNS"] = "100";
    answers = std::move(typed);
    while_asked = [this] { CHECK(disk.locks_held == 0); };
  }
  [[nodiscard]] const std::string& file() { return disk.files["wrap.yaml"]; }
};

bool says(const Ran& ran, std::string_view text) { return ran.out.find(text) != std::string::npos; }
bool complains(const Ran& ran, std::string_view text) { return ran.complaints.find(text) != std::string::npos; }

std::size_t times(const Ran& ran, std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = ran.out.find(text); at != std::string::npos; at = ran.out.find(text, at + 1)) ++count;
  return count;
}

TEST_CASE("check asks for ball and old end; Enter takes the ball that costs least") {
  Sitting sitting({"", kWrapOld, "y"});
  const Ran ran = sitting.run({"check", "wrap"});
  CAPTURE(ran.out);
  CHECK(ran.code == Exit::done);
  CHECK(says(ran,
             "Which fresh ball is joined?\n"
             "B: plum 15, sand 11, rust 30\n"
             "C: rust 62, moss 14, navy\n"
             "D: navy 20, grey 9, plum\n"
             "E: not read yet\n"
             "Ball (Enter: of those read, the one that costs least): "));
  CHECK(says(ran, "Colours of this yarn: plum, sand, rust, moss, navy and grey.\nOld end: "));
  CHECK(says(ran, "Take ball C."));
  CHECK(says(ran, "Recorded as entry 8: joined to ball C"));
}

TEST_CASE("the new end is asked for only when it was never read") {
  Sitting read({"b", kWrapOld, "n"});
  const Ran with_b = read.run({"check", "wrap"});
  CHECK(says(with_b, "Cheaper   ball C"));
  CHECK_FALSE(says(with_b, "New end: "));
  Sitting unread({"E", kWrapOld, "plum 15, sand 11, rust 30", "y"});
  const Ran with_e = unread.run({"check", "wrap"});
  CHECK(says(with_e, "New end: "));
  CHECK(says(with_e, "Recorded as entry 8: joined to ball E"));
}

TEST_CASE("what is given is not asked for") {
  Sitting sitting({"n"});
  const Ran ran = sitting.run({"check", "wrap", "--old", kWrapOld});
  CHECK(ran.code == Exit::done);
  CHECK_FALSE(says(ran, "Which fresh ball"));
  CHECK_FALSE(says(ran, "Old end: "));
}

TEST_CASE("the finishing ball's other end, when it was read before it was begun, is taken by Enter") {
  std::vector<std::string> entries = wrap_entries();
  entries.front() = "ball, ball: A, inside: \"rust 30, sand 11, plum 40\"";
  Sitting sitting({"C", "", "n"}, entries);
  const Ran ran = sitting.run({"check", "wrap"});
  CAPTURE(ran.out);
  CHECK(says(ran, "Old end (Enter: rust 30, sand 11, plum 40, as read before): "));
  CHECK(ran.code == Exit::done);
}

TEST_CASE("a wrong answer is told with what would be right, and asked again") {
  Sitting sitting({"Q", "A", "C", "rust 30, pink 11", "rust 30, sand 500, plum", kWrapOld, "n"});
  const Ran ran = sitting.run({"check", "wrap"});
  CAPTURE(ran.out);
  CHECK(says(ran, ": there is no ball Q; the project's are A, B, C, D and E\nBall "));
  CHECK(says(ran, ": ball A is in the work; name a fresh ball\nBall "));
  CHECK(says(ran, ": entry 2: "));
  CHECK(says(ran, ": this fits nowhere on the repeat: "));
  CHECK(times(ran, "Old end: ") == 3);
  CHECK(ran.code == Exit::done);
}

TEST_CASE("a name that is taken, and a reading that is not typed, are told and asked again") {
  Sitting sitting({"A", "F", "", "-", "plum 15, sand 11, rust 30", ""});
  const Ran ran = sitting.run({"ball", "wrap"});
  CAPTURE(ran.out);
  CHECK(says(ran,
             "ball A is there already: give another name, or end with Ctrl-D and tell more of it with --ball A\n"
             "Name of the ball (Enter: F): "));
  CHECK(says(ran, "- reads from standard input: type the reading itself, or @FILE\n"));
  CHECK(says(ran, "Recorded as entry 8: ball F; outside: plum 15, sand 11, rust 30."));
  CHECK(ran.code == Exit::done);
}

TEST_CASE("an unsettled reading leads to its one question, answered in place") {
  Sitting sitting({"C", "sand, plum 40", "5", "n"});
  const Ran ran = sitting.run({"check", "wrap"});
  CAPTURE(ran.out);
  CHECK(says(ran,
             "Can't tell yet: how far is it from the loose end to the end of sand on the old strand? Answer with\n"
             "the length of sand.\n"
             "Answer (Enter: don't know): "));
  Sitting longer({"C", "sand 5, plum 40", "n"});
  const Ran plain = longer.run({"check", "wrap"});
  CHECK(ran.code == plain.code);
  CHECK(ran.out.substr(ran.out.find("Don't cut yet")) == plain.out.substr(plain.out.find("Don't cut yet")));
}

TEST_CASE("a question that Enter leaves open is told at the end, and after three there is no further one") {
  Sitting sitting({"C", "sand, plum 40", ""});
  const Ran ran = sitting.run({"check", "wrap"});
  CHECK(ran.code == Exit::settles_nothing);
  CHECK(times(ran, "Can't tell yet: ") == 2);  // asked, and once more on the screen
  Sitting again({"C", "sand, plum 40", "sand, plum 41", "sand, plum 42", "sand, plum 43"});
  const Ran thrice = again.run({"check", "wrap"});
  CHECK(thrice.code == Exit::settles_nothing);
  CHECK(times(thrice, "Can't tell yet: ") == 4);
}

TEST_CASE("a splash that is not there is not asked for again: what is left is to measure on") {
  for (const char* no : {"no", "n"}) {
    Sitting sitting({"C", "rust 30, plum 40", no});
    const Ran ran = sitting.run({"check", "wrap"});
    CAPTURE(ran.out);
    CHECK(ran.code == Exit::settles_nothing);
    CHECK(times(ran, "is there a short piece of sand") == 1);
    CHECK(says(ran,
               "Can't tell yet: the old strand looks the same in several places. Write down the next colours and\n"
               "their lengths.\n"
               "Old end   30 cm into rust (85 %).\n"));
  }
  Sitting open({"C", "rust 30, plum 40", ""});
  CHECK(times(open.run({"check", "wrap"}), "is there a short piece of sand") == 2);
}

TEST_CASE("nobody answers: the option to give is named, and nothing changes") {
  struct Row {
    std::vector<std::string> typed, arguments;
    const char* option;
  };
  const std::vector<Row> rows{
      {{}, {"check", "wrap"}, "--ball ID"},
      {{"C", ""}, {"check", "wrap"}, "--old \"rust 30"},
      {{"C"}, {"check", "wrap"}, "--old \"rust 30"},
      {{"E", kWrapOld, ""}, {"check", "wrap"}, "--new \"plum 15"},
      {{""}, {"check", "--whole", "plum 84"}, "--old \"rust 30"},
      {{""}, {"start", "new"}, "--yarn PROFILE"},
      {{"orchard"}, {"start", "new"}, "--stitches 60, or --no-ask"},
      {{"F"}, {"ball", "wrap"}, "--mass 50.2g, or --no-ask"},
      {{"F", "", "sand, plum 40"}, {"ball", "wrap"}, "--outside READING, or --no-ask"},
      {{"F", "", ""}, {"ball", "wrap"}, "--inside \"plum 15"},
  };
  for (const Row& row : rows) {
    Sitting sitting(row.typed);
    const auto before = sitting.disk.files;
    const Ran ran = sitting.run(row.arguments);
    CAPTURE(ran.out);
    CAPTURE(ran.complaints);
    CHECK(ran.code == Exit::content);
    CHECK(complains(ran, "no answer, so nothing was recorded: give "));
    CHECK(complains(ran, row.option));
    CHECK(sitting.disk.files == before);
  }
}

TEST_CASE("nothing is asked with --no-ask, for JSON, and where readings come from standard input") {
  for (const std::vector<std::string>& more :
       {std::vector<std::string>{"--no-ask"}, {"--format", "json"}, {"--old", "-", "--knot"}}) {
    std::vector<std::string> arguments{"check", "wrap"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    Sitting sitting({"C", kWrapOld});
    const Ran ran = sitting.run(arguments, "rust 30, sand 11, plum");
    CHECK(ran.code == Exit::content);
    CHECK(sitting.answers->size() == 2);
  }
}

TEST_CASE("check without a project asks for the yarn, of the profiles that are found") {
  Sitting sitting({"orchad", "orchard", "rust 30, sand 11, plum", "plum 15, sand 11, rust 30"});
  sitting.disk.files.erase("wrap.yaml");
  sitting.disk.files["shopping.yaml"] = "yarn: plenty\n";
  const Ran ran = sitting.run({"check"});
  CAPTURE(ran.out);
  CHECK(says(ran, "Which yarn? Profiles found: orchard; or the path of another file.\nYarn: "));
  CHECK(says(ran, "did you mean orchard?"));
  CHECK(says(ran, "Costs     46 cm cut off"));
  CHECK(ran.code == Exit::done);
}

TEST_CASE("of several projects in the folder the one meant is asked for") {
  Sitting sitting({"hat", "wrap", "F", "", "", ""});
  sitting.disk.files["scarf.yaml"] = wrap_file({});
  const Ran ran = sitting.run({"ball"});
  CAPTURE(ran.out);
  CHECK(says(ran, "Which project? In this folder: scarf.yaml and wrap.yaml.\nProject: "));
  CHECK(says(ran, "Recorded as entry 8"));
  CHECK(sitting.file().find("did: ball, ball: F") != std::string::npos);
}

TEST_CASE("start asks for yarn, stitches, yarn per stitch and method; Enter leaves each open but the yarn") {
  Sitting sitting({"orchard", "sixty", "60", "147 st", "knoted", "felted"});
  const Ran ran = sitting.run({"start", "new"});
  CAPTURE(ran.out);
  CHECK(ran.code == Exit::done);
  CHECK(says(ran, ": 'sixty' is not a whole number"));
  CHECK(says(ran, "did you mean knotted?"));
  const std::string& file = sitting.disk.files["new.yaml"];
  CHECK(file.find("stitches: 60") != std::string::npos);
  CHECK(file.find("method: felted") != std::string::npos);
  // A repeat is 276 cm: by 147 stitches 1.878 cm each.
  CHECK(file.find("yarn_per_stitch: 1.87") != std::string::npos);
  Sitting bare({"orchard", "", "", ""});
  CHECK(bare.run({"start", "new"}).code == Exit::done);
  Sitting plain({});
  plain.answers.reset();
  CHECK(plain.run({"start", "new", "--yarn", "orchard"}).code == Exit::done);
  CHECK(bare.disk.files["new.yaml"] == plain.disk.files["new.yaml"]);
}

TEST_CASE("a key that is not known is told once, however often what it stands in is tried") {
  const std::string stray = "thickness: 4\n";
  const auto told = [](const Ran& ran) {
    std::size_t count = 0;
    for (std::size_t at = ran.complaints.find("thickness"); at != std::string::npos;
         at = ran.complaints.find("thickness", at + 1)) {
      ++count;
    }
    return count;
  };
  Sitting project({"C", kWrapOld, "n"});
  project.disk.files["wrap.yaml"].insert(project.file().find("log:"), stray);
  CHECK(told(project.run({"check", "wrap"})) == 1);
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"start", "new", "--dry-run"}, {"check", "--yarn", "orchard"}}) {
    const bool starts = arguments.front() == "start";
    Sitting profile(starts ? std::vector<std::string>{"orchard", "60", "147 st", "felted"}
                           : std::vector<std::string>{"rust 30, sand 11, plum", "plum 15, sand 11, rust 30"});
    profile.disk.files["orchard.yaml"] += stray;
    const Ran ran = profile.run(arguments);
    CAPTURE(ran.complaints);
    CHECK(ran.code == Exit::done);
    CHECK(told(ran) == 1);
  }
}

TEST_CASE("start over a file that is there asks nothing") {
  Sitting sitting({"orchard"});
  CHECK(sitting.run({"start", "wrap"}).code == Exit::file);
  CHECK(sitting.answers->size() == 1);
}

TEST_CASE("ball asks for name, mass and both ends; the next free letter is offered, and Enter skips an end") {
  Sitting sitting({"B", "", "heavy", "50.2", "plum 15, sand 11, rust 30", ""});
  const Ran ran = sitting.run({"ball", "wrap"});
  CAPTURE(ran.out);
  CHECK(ran.code == Exit::done);
  CHECK(says(ran, "Name of the ball (Enter: F): ball B is there already"));
  CHECK(times(ran, "Its mass on the scale") == 2);
  CHECK(says(ran,
             "Outer end (Enter: not read yet): Its inner end, where it can be got at, read from that loose end "
             "inward.\nInner end (Enter: not read yet): "));
  CHECK(sitting.file().ends_with("did: ball, ball: F, mass: 50.2 g, outside: \"plum 15, sand 11, rust 30\"}\n"));
}

TEST_CASE("what was answered with no about a ball's end is not asked again") {
  Sitting sitting({"", "", "plum 40, rust 30", "no", ""});
  const Ran ran = sitting.run({"ball", "wrap"});
  CAPTURE(ran.out);
  CHECK(ran.code == Exit::done);
  CHECK(times(ran, "is there a short piece of sand") == 1);
  Sitting open({"", "", "plum 40, rust 30", "", ""});
  CHECK(times(open.run({"ball", "wrap"}), "is there a short piece of sand") == 2);
}

TEST_CASE("a ball on record is asked only for what nobody told yet, and not where something is told now") {
  Sitting told({});
  CHECK(told.run({"ball", "wrap", "--ball", "E", "--mass", "50"}).code == Exit::done);
  Sitting bare({"50", "rust 62, moss 14, navy", ""});
  CHECK(bare.run({"ball", "wrap", "--ball", "E"}).code == Exit::done);
  CHECK(bare.file().ends_with("did: ball, ball: E, mass: 50 g, outside: \"rust 62, moss 14, navy\"}\n"));
}

TEST_CASE("of a ball on record the ends are asked for that are loose and not read yet") {
  Sitting fresh({});
  REQUIRE(fresh.run({"ball", "wrap", "--ball", "E", "--mass", "50", "--outside", "rust 62, moss 14, navy"}).code ==
          Exit::done);
  Sitting inner({"rust 62, sand 11, plum"});
  inner.disk.files["wrap.yaml"] = fresh.disk.files["wrap.yaml"];
  const Ran asked = inner.run({"ball", "wrap", "--ball", "E"});
  CAPTURE(asked.complaints);
  CHECK(asked.code == Exit::done);
  CHECK(inner.file().ends_with("did: ball, ball: E, inside: \"rust 62, sand 11, plum\"}\n"));

  Sitting worked({""});
  const Ran ran = worked.run({"ball", "wrap", "--ball", "A"});  // in the work
  CHECK_FALSE(says(ran, "mass"));
  CHECK_FALSE(says(ran, "Outer end"));
  CHECK(says(ran, "Inner end"));
}

TEST_CASE("where the work is begun already nothing more is asked of a ball that is to begin it") {
  Sitting sitting({"50", "", ""});
  const Ran ran = sitting.run({"ball", "wrap", "--begin"});
  CHECK(ran.complaints == "wrap.yaml: the work is begun already; another ball comes in with a join\n");
  CHECK(ran.out.empty());
}

TEST_CASE("at a knot both sides of one ball are asked for") {
  Sitting sitting({kWrapOld, "rust 62, moss 14, navy"});
  const Ran ran = sitting.run({"check", "wrap", "--knot"});
  CHECK(says(ran, "The strand from the knot towards the work."));
  CHECK(says(ran, "The strand from the knot towards the ball."));
  CHECK_FALSE(says(ran, "fresh ball"));
}

TEST_CASE("the end a ball is not worked from is asked for last, and read as the other one") {
  Sitting sitting({"", "", "rust 62, sand 11, plum"});
  const Ran ran = sitting.run({"ball", "wrap", "--ball", "F", "--from", "inside"});
  CAPTURE(ran.out);
  CHECK(ran.code == Exit::done);
  CHECK(says(ran, "Its inner end."));
  CHECK(sitting.file().ends_with("did: ball, ball: F, outside: \"rust 62, sand 11, plum\", from: inside}\n"));
  // Worked from the inner end, the outer one shows the repeat the other way round; that is no news.
  CHECK_FALSE(says(ran, " But "));
}

TEST_CASE("what others record while a question stands is kept, and the advice knows of it") {
  Sitting sitting({"C", kWrapOld, "y"});
  int asked = 0;
  sitting.while_asked = [&] {
    if (++asked > 1) return;
    std::vector<std::string> entries = wrap_entries();
    entries.emplace_back("note, text: meanwhile");
    sitting.disk.files["wrap.yaml"] = wrap_file(entries);
  };
  const Ran ran = sitting.run({"check", "wrap"});
  CAPTURE(ran.complaints);
  CHECK(ran.code == Exit::done);
  CHECK(says(ran, "Recorded as entry 9: joined to ball C"));
  CHECK(sitting.file().find("meanwhile") != std::string::npos);
}

TEST_CASE("an answer is worked into the reading as it was written") {
  const std::vector<Colour> colours = orchard().repeat.colours();
  using Kind = Question::Kind;
  struct Row {
    const char* text;
    Kind kind;
    std::size_t entry;
    const char* answer;
    const char* made;  // null: nothing new
  };
  const ColourId navy = 4;
  const std::vector<Row> rows{
      {"rust, sand 11, plum", Kind::first_length, 0, "3 1/2in", "rust 3 1/2in, sand 11, plum"},
      {"rust 30, sand", Kind::which_follows, 1, "plum", "rust 30, sand, plum"},
      {"rust 30, sand 9+", Kind::which_follows, 1, "plum", "rust 30, sand, plum"},
      {"| sand 11 |", Kind::which_follows, 0, "plum", "| sand 11, plum"},
      {"rust 30, sand 9", Kind::which_follows, 1, "11, plum 20", "rust 30, sand 11, plum 20"},
      {"plum 15", Kind::next_change, 0, "47, sand", "plum 47, sand"},
      {"plum 15", Kind::next_change, 0, "plum 47, sand 3", "plum 47, sand 3"},
      {"rust 30, sand, plum", Kind::how_long, 1, "\xC2\xBD in", "rust 30, sand \xC2\xBD in, plum"},
      {"rust 30, sand 11, plum", Kind::look_alike, 0, "navy", "navy 30, sand 11, plum"},
      {"rust 30, sand 11, plum", Kind::look_alike, 0, "RUST", nullptr},
      {"rust 30, plum", Kind::overlooked, 0, "no", nullptr},
      {"rust 30, plum", Kind::overlooked, 0, "no, none", nullptr},
      {"rust 30, plum", Kind::overlooked, 0, "n 30, rust", "n 30, rust"},
      {"rust 30, plum", Kind::overlooked, 0, "rust 15, sand 11, plum", "rust 15, sand 11, plum"},
      {"rust 30, plum", Kind::wrong_way, 0, "yes", nullptr},
      {"rust 30, hook, sand 5st", Kind::which_follows, 1, "plum", "rust 30, hook, sand 5st, plum"},
  };
  const auto refused = [&](Kind kind, const char* answer) {
    Palette palette{colours, false};
    const Reading reading = parse_reading("rust 30, plum", End::old_end, palette, {}, "--old");
    try {
      (void)answered("rust 30, plum", reading, {kind, 0, navy}, answer, colours);
    } catch (const Problem& problem) {
      return std::string(problem.what());
    }
    return std::string();
  };
  CHECK(refused(Kind::overlooked, "y") == "then type the whole reading again, with that piece and its length in it");
  CHECK(refused(Kind::overlooked, "Yes, 11") == refused(Kind::overlooked, "y"));
  CHECK(refused(Kind::wrong_way, "n") == "then type the reading again, from the loose end inward");
  for (const Row& row : rows) {
    CAPTURE(row.text);
    CAPTURE(row.answer);
    Palette palette{colours, false};
    const Ruler ruler{Unit::cm, 1.85_cm, false};
    const Reading reading = parse_reading(row.text, End::old_end, palette, ruler, "--old");
    const auto made = answered(row.text, reading, {row.kind, row.entry, navy}, row.answer, colours);
    CHECK(made == (row.made == nullptr ? std::nullopt : std::optional<std::string>(row.made)));
  }
}

}  // namespace
}  // namespace ballchange
