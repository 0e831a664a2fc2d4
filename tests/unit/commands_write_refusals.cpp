#include <doctest/doctest.h>

#include "session.hpp"

// Whatever is refused leaves the file as it was, byte for byte, and says what would be right.

namespace ballchange {
namespace {

// A wrap in work: ball A begun, B added and joined, row 40 finished.
struct Wrap : Session {
  Wrap() {
    do_it({"start", "wrap", "--yarn", "orchard.yaml", "--stitches", "60", "--rows", "180", "--yarn-per-stitch", "1.85",
           "--yarn-per-turn", "1.2", "--foundation", "130"});
    do_it({"ball", "--ball", "A", "--outside", "plum 15, sand 11, rust 30", "--begin"});
    do_it({"ball", "--ball", "B"});
    do_it({"row", "--row", "40"});
  }
  void do_it(const std::vector<std::string>& arguments) {
    const Ran ran = run(arguments);
    CAPTURE(ran.complaints);
    REQUIRE(ran.code == Exit::done);
  }
};

struct Refusal {
  std::vector<std::string> arguments;
  int code;
  std::string message;
};

const std::vector<Refusal>& refusals() {
  static const std::vector<Refusal> table{
      {{"start"}, 2, "start needs a yarn: --yarn PROFILE; all else can be told later"},
      {{"start", "wrap", "--yarn", "orchard.yaml"},
       1,
       "wrap.yaml is there already and was left as it is; choose another name"},
      {{"start", "wrap.yaml", "--yarn", "orchard.yaml", "--dry-run"},
       1,
       "wrap.yaml is there already and was left as it is; choose another name"},
      {{"start", "new", "--yarn", "orchard.yaml", "--yarn-per-stitch", "2st"},
       2,
       "--yarn-per-stitch: '2st' is in stitches; write the yarn in one, like 1.85cm"},
      {{"start", "new", "--yarn", "orchard.yaml", "--yarn-per-stitch", "20m"},
       2,
       "--yarn-per-stitch: '20m' is out of reach: a stitch takes from 0.1 mm to 10 m"},
      {{"start", "new", "--yarn", "orchard.yaml", "--yarn-per-row", "112"},
       2,
       "--yarn-per-row needs the stitches in a row too: --stitches 60"},
      {{"start", "new", "--yarn", "orchard.yaml", "--yarn-per-stitch", "1.85", "--repeat-stitches", "100"},
       2,
       "--yarn-per-stitch makes a stitch 1.85 cm, --repeat-stitches makes it 2.76 cm: they don't agree; measure once "
       "more and give the one you trust"},
      {{"start", "new", "--yarn", "orchard.yaml", "--stitches", "60", "--yarn-per-stitch", "1.85", "--yarn-per-row",
        "90"},
       2,
       "--yarn-per-row and --yarn-per-stitch don't agree: 60 stitches take 111 cm, and the row takes 90 cm; measure "
       "once more and give the one you trust"},
      {{"start", "new", "--yarn", "orchard.yaml", "--name", "two\nlines"},
       2,
       "--name has several lines; write it on one"},
      {{"start", "new", "--yarn", "orchard.yaml", "--worked", "row"},
       2,
       "--worked: 'row' is not one of rows, rounds, turned-rounds, did you mean rows?"},
      {{"start", "new", "--yarn", "orchard.yaml", "--at", "yesterday"},
       2,
       "--at: 'yesterday' is no date and time; write both, like 2026-03-02T19:20:00Z or 2026-03-02T20:20+01:00"},

      {{"ball", "--ball", "A"},
       2,
       "wrap.yaml: ball A is there already, since entry 1; tell what is new about it, or name another"},
      {{"ball", "--ball", " "}, 2, "--ball: a ball's name can't be empty; write one, like A"},
      {{"ball", "--mass", "0"}, 2, "--mass: a ball weighs more than nothing"},
      {{"ball", "--trim-new", "3"}, 2, "--trim-new tells how the work begins: give --begin too"},
      {{"ball", "--first-stitch", "at rust"}, 2, "--first-stitch tells how the work begins: give --begin too"},
      {{"ball", "--begin", "--trim-new", "3", "--first-stitch", "at rust"},
       2,
       "--trim-new and --first-stitch exclude each other: the place of the first stitch gives the trim"},
      {{"ball", "--begin"}, 2, "wrap.yaml: the work is begun already; another ball comes in with a join"},
      {{"ball", "--plain", "--outside", "plum 3"},
       2,
       "--plain: a ball of one colour has no repeat to read or to begin with; leave the rest out"},
      {{"ball", "--outside", "-", "--inside", "-"},
       2,
       "only one of --outside and --inside can come from standard input; give the other as @FILE"},
      {{"ball", "--outside", "@gone.txt"}, 1, "cannot open gone.txt: No such file or directory"},
      {{"ball", "--begin", "--first-stitch", "near rust", "--outside", "plum 15, sand 11, rust 30"},
       2,
       "--first-stitch: 'near rust' is no place on the yarn; write it like \"2 before rust ends\", \"at rust\" or "
       "\"rust 26\""},
      {{"ball", "--begin", "--first-stitch", "90 before rust ends", "--outside", "plum 15, sand 11, rust 30"},
       2,
       "--first-stitch: '90 before rust ends' lies outside rust, which is 80 cm long"},
      {{"ball", "--begin", "--first-stitch", "at rust"},
       2,
       "--first-stitch needs the outside end of the ball: --outside \"plum 15, sand\""},

      {{"row"}, 2, "row needs the row the work stands in: --row 40, or --row 40 --stitch 12 in mid-row"},
      {{"row", "--stitch", "3"}, 2, "--stitch says little without its row: give --row too"},
      {{"row", "--row", "0"}, 2, "--row: '0' is not a whole number from 1 to 1000000"},
      {{"row", "--row", "41", "--stitch", "61"}, 2, "wrap.yaml: stitch 61 of a row of 60; write 0 to 60"},
      {{"row", "--row", "30"},
       2,
       "wrap.yaml: row 30 lies before row 40, stitch 60, where the work stands; if it was ravelled back, type: "
       "ballchange rip wrap.yaml --row 30"},
      {{"row", "--seen", "row 39 stitch 61 navy begins"}, 2, "--seen: stitch 61 of a row of 60; write 1 to 60"},
      {{"row", "--seen", "row 41 navy begins"}, 2, "--seen: row 41 is not worked yet: the work stands at row 40"},
      {{"row", "--seen", "row 39 nevy begins"}, 2, "--seen: 'nevy' is no colour of this yarn; did you mean navy?"},
      {{"row", "--seen", "navy begins"},
       2,
       "--seen: 'navy begins' does not begin with its row; write it like \"row 120 stitch 14 navy begins\""},
      {{"row", "--seen", "row 39 navy"},
       2,
       "--seen: 'row 39 navy' does not end in begins or ends; write it like \"row 120 stitch 14 navy begins\""},
      {{"row", "--seen", "row 39 begins"},
       2,
       "--seen: 'row 39 begins' names no colour; write it like \"row 120 stitch 14 navy begins\""},
      {{"row", "--seen", "row x navy begins"},
       2,
       "--seen: 'row x navy begins' counts rows or stitches that can't be; write it like \"row 120 stitch 14 navy "
       "begins\""},

      {{"join", "--ball", "A", "--knot", "--method", "woven", "--allowance", "20"},
       2,
       "--method is for ends that were cut: tell what came off, --trim-old 0 --trim-new 48, or leave it out"},
      {{"join", "--ball", "B", "--trim-old", "3", "--sparing"},
       2,
       "--sparing is for a join as check advises, from both readings; what was really done is recorded without it: "
       "leave it out"},
      {{"join", "--ball", "B", "--trim-old", "3", "--edge", "seek"},
       2,
       "--edge is for a join as check advises, from both readings; what was really done is recorded without it: leave "
       "it out"},
      {{"join", "--ball", "B", "--trim-old", "3", "--out-of-step", "7"},
       2,
       "--out-of-step is for a join as check advises, from both readings; what was really done is recorded without it: "
       "leave it out"},
      {{"join", "--ball", "A", "--knot", "--take", "2"},
       2,
       "--take is for a join as check advises, from both readings; what was really done is recorded without it: leave "
       "it out"},
      {{"join", "--ball", "B", "--trim-old", "3", "--new", "plum 15, sand 11, rust 30"},
       2,
       "--new tells how far out of step it is only together with --old \"rust 30, sand 11, plum\": give both"},
      {{"join", "--ball", "B", "--trim-old", "3", "--old", "rust 30, sand 11, plum"},
       2,
       "--old tells how far out of step it is only together with the fresh end, and the outside end of ball B is "
       "not on record: tell it with --new \"plum 15, sand 11, rust 30\", or leave --old out"},
      {{"join", "--ball", "B", "--trim-old", "3", "--tape", "1 cm"},
       2,
       "--tape is for readings: give --old \"rust 30, sand 11, plum\" too, or leave it out"},
      {{"check", "--yarn", "orchard.yaml", "--old", "rust 30, sand 11, plum", "--new", "plum 15, sand 11, rust 30",
        "--at", "nonsense"},
       2,
       "--at is for what is recorded in a project: leave it out, or name the project's file right after check"},
      {{"check", "wrap", "--old", "rust 30, sand 11, plum", "--new", "plum 15, sand 11, rust 30", "--at", "nonsense"},
       2,
       "--at: 'nonsense' is no date and time; write both, like 2026-03-02T19:20:00Z or 2026-03-02T20:20+01:00"},

      {{"rip"}, 2, "rip needs the last row that is left: --row 30; --row 0 leaves the foundation alone"},
      {{"rip", "--row", "40"},
       2,
       "wrap.yaml: the end of row 40 isn't behind row 40, stitch 60, where the work stands; name a row that is "
       "finished"},

      {{"cancel"}, 2, "cancel needs the number of an entry: ballchange cancel 5; ballchange log shows them"},
      {{"cancel", "A"},
       2,
       "'A' is no entry's number; the number comes last: ballchange cancel 5; ballchange log shows them"},
      {{"cancel", "9"}, 2, "there is no entry 9: the last one is 4"},
      {{"cancel", "1"}, 2, "wrap.yaml: without ball A entry 2 would not fit any more; cancel entry 2 first"},

      {{"note"}, 2, "note needs its text, as one word: ballchange note \"ball B is a little thinner\""},
      {{"note", "wrap.yaml"}, 2, "note needs its text, as one word: ballchange note \"ball B is a little thinner\""},
      {{"note", "too", "many", "words"}, 2, "'words' belongs to no option: quote a reading as one word"},

      {{"gauge"},
       2,
       "gauge needs something to record: --yarn-per-stitch 1.9cm, --yarn-per-row, --repeat-stitches, --yarn-per-turn, "
       "--stitches-in-10cm, --rows-in-10cm or --size; or a swatch, --swatch \"4 mm, 33 st over 15 cm\"; or the widths "
       "to choose from, --widths 60-120"},
      {{"gauge", "--stitches-in-10cm", "18,5"},
       2,
       "--stitches-in-10cm: '18,5' is not a number from 0.1 to 1000, like 18 or 18.5"},
      {{"gauge", "--rows-in-10cm", "0"}, 2, "--rows-in-10cm: '0' is not a number from 0.1 to 1000, like 18 or 18.5"},

      {{"row", "A", "--row", "41"},
       2,
       "'A' is no project file and belongs to no option: options begin with --, and a text of several words is quoted "
       "as one"},
      {{"row", "gone.yaml", "--row", "41"}, 1, "no project file gone.yaml; in this folder is wrap.yaml"},
      {{"row", "wrop.yaml", "--row", "41"}, 1, "no project file wrop.yaml; did you mean wrap.yaml?"},
      {{"row", "--row", "41", "--at", "2026-02-30T10:00Z"},
       2,
       "--at: '2026-02-30T10:00Z' is no day of the calendar; write one that is, like 2026-03-02T19:20:00Z or "
       "2026-03-02T20:20+01:00"},
  };
  return table;
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

TEST_CASE("what is refused says why, has its exit code and leaves every file as it was") {
  Wrap wrap;
  const auto before = wrap.disk.files;
  for (const Refusal& refusal : refusals()) {
    for (const bool json : {false, true}) {
      std::vector<std::string> arguments = refusal.arguments;
      if (json) arguments.insert(arguments.end(), {"--format", "json"});
      std::string typed;
      for (const std::string& word : arguments) typed += word + " ";
      CAPTURE(typed);
      const Ran ran = wrap.run(arguments);
      CHECK(first_line(ran.complaints) == refusal.message);
      CHECK(ran.code == refusal.code);
      CHECK(ran.out.empty());
      CHECK(wrap.disk.files == before);
    }
  }
}

TEST_CASE("a yarn that does not felt is not joined by felting") {
  Session session;
  Yarn superwash = orchard();
  superwash.felts = false;
  session.disk.files["superwash.yaml"] = write_profile(superwash);
  const Ran ran = session.run({"start", "--yarn", "superwash.yaml", "--method", "felted"});
  CHECK(ran.code == Exit::content);
  CHECK(ran.complaints ==
        "--method: Orchard is not known to felt, so a felted join would come apart; threaded holds in any yarn\n");
  CHECK(session.disk.files.size() == 2);
}

TEST_CASE("a disk that fails is told in one line, and nothing is lost") {
  Wrap wrap;
  const auto before = wrap.disk.files;
  for (const int error : {ENOSPC, EROFS, EACCES, EIO}) {
    for (const char* step : {"create", "write", "write more", "sync", "exchange"}) {
      CAPTURE(error);
      CAPTURE(step);
      wrap.disk.before = [&](std::string_view now) {
        if (now == step) throw std::system_error(error, std::generic_category());
      };
      const Ran ran = wrap.run({"row", "--row", "41"});
      wrap.disk.before = nullptr;
      CHECK(ran.code == Exit::file);
      CHECK(ran.complaints ==
            "cannot write wrap.yaml: " + std::generic_category().message(error) + "; nothing was recorded\n");
      CHECK(wrap.disk.files == before);
    }
  }
  CHECK(wrap.run({"row", "--row", "41"}).code == Exit::done);
}

TEST_CASE("start is stopped by a disk that fails, and leaves nothing") {
  Session session;
  const auto before = session.disk.files;
  for (const char* step : {"create", "write", "write more", "sync", "rename_to_new"}) {
    CAPTURE(step);
    session.disk.before = [&](std::string_view now) {
      if (now == step) throw std::system_error(ENOSPC, std::generic_category());
    };
    CHECK(session.run({"start", "--yarn", "orchard.yaml"}).code == Exit::file);
    session.disk.before = nullptr;
    CHECK(session.disk.files == before);
  }
  CHECK(session.run({"start", "--yarn", "orchard.yaml"}).code == Exit::done);
}

TEST_CASE("a file that may not be written is refused before anything is asked of the disk") {
  Wrap wrap;
  const auto before = wrap.disk.files;
  FileFacts& facts = wrap.disk.attributes["wrap.yaml"];
  facts.write_error = EACCES;
  const Ran ran = wrap.run({"row", "--row", "41"});
  CHECK(ran.code == Exit::file);
  CHECK(ran.complaints.find("wrap.yaml") != std::string::npos);
  CHECK(wrap.disk.files == before);
}

}  // namespace
}  // namespace ballchange
