#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "ledger/seen.hpp"
#include "ledger/shifts.hpp"
#include "unit/ledger_log.hpp"

using namespace ballchange;

namespace {

const std::vector<Colour> kColours{{"plum", {}}, {"rust", {}}, {"rose red", {}}};

std::string parsed(const std::string& text) {
  try {
    return parse_seen(text, kColours, "--seen").text;
  } catch (const Problem& problem) {
    return problem.what();
  }
}

}  // namespace

TEST_CASE("what was seen is kept in the same words") {
  struct Row {
    const char* typed;
    const char* kept;
  };
  for (const Row& row : {
           Row{"row 120 stitch 14 plum begins", "row 120 stitch 14 plum begins"},
           Row{"Row 3 ro ends", "row 3 rose red ends"},
           Row{"rust 41 stitches", "rust 41 stitches"},
           Row{"ru made 41 stitches", "rust 41 stitches"},
           Row{"row 8 rose red 12 st", "row 8 rose red 12 stitches"},
           Row{"row 8 stitch 3 rust 1 stitch", "row 8 stitch 3 rust 1 stitch"},
           Row{"rust 41.5 stitches", "rust 41.5 stitches"},
           Row{"rust 41½ stitches", "rust 41.5 stitches"},
       }) {
    CAPTURE(row.typed);
    CHECK(parsed(row.typed) == row.kept);
    CHECK(parsed(row.kept) == row.kept);
  }
}

TEST_CASE("what can't be read is refused with what would be right") {
  const std::string like = "; write it like \"row 120 stitch 14 navy begins\"";
  const std::string count = like + ", a count like \"rust 41 stitches\"";
  struct Row {
    const char* typed;
    std::string message;
  };
  for (const Row& row : {
           Row{"plum begins", "--seen: 'plum begins' does not begin with its row" + like},
           Row{"row 3 plum", "--seen: 'row 3 plum' does not end in begins or ends" + like},
           Row{"row 0 plum begins", "--seen: 'row 0 plum begins' counts rows or stitches that can't be" + like},
           Row{"rust many stitches", "--seen: 'rust many stitches' does not tell how many stitches" + count},
           Row{"rust 0 stitches", "--seen: 'rust 0 stitches' does not tell how many stitches" + count},
           Row{"rust 41.3 stitches", "--seen: 'rust 41.3 stitches' does not tell how many stitches" + count},
           Row{"41 stitches", "--seen: '41 stitches' names no colour" + count},
           Row{"r 41 stitches", "--seen: 'r 41 stitches' fits more than one colour" + count},
           Row{"nivy 41 stitches", "--seen: 'nivy' is no colour of this yarn; write plum, rust or rose red"},
       }) {
    CAPTURE(row.typed);
    CHECK(parsed(row.typed) == row.message);
  }
}

namespace {

// Rows of 50 x 2 + 10 cm; plum 150, rust 126. "A" is begun, "B" joined at 10:20, 1060 cm in: the entries stand first.
std::vector<std::string> joined(const std::string& more, std::vector<std::string> then) {
  std::vector<std::string> log{"ball, ball: A", "ball, ball: B", "begin, ball: A",
                               "join, ball: B, row: 10, stitch: 20" + more, "row, row: 12"};
  log.insert(log.end(), then.begin(), then.end());
  return log;
}

std::string shift_of(const State& state) {
  std::string text = text_of(state.joins.front().shift) + " of " + text_of(state.joins.front().recorded_shift);
  for (const Trouble& trouble : state.troubles) text += "; " + trouble.message;
  return text;
}

}  // namespace

// By hand, in cm: what a section is long, less what was seen of it.
TEST_CASE("the joined section that was seen corrects its join's shift") {
  const std::string in = ", shift: 3 cm";
  struct Row {
    const char* what;
    std::string join;
    std::vector<std::string> then;
    std::string shift;
  };
  for (const Row& row : {
           Row{"nothing seen", in, {}, "3 of 3"},
           Row{"126 - 28 * 2", in, {"row, row: 12, seen: [\"rust 28 stitches\"]"}, "70 of 3"},
           Row{"126 - 60.5 * 2 - two turns", in, {"row, row: 12, seen: [\"rust 60.5 stitches\"]"}, "-15 of 3"},
           Row{"a shift not known", "", {"row, row: 12, seen: [\"rust 38 stitches\"]"}, "50 of ?"},
           Row{"the last count counts",
               in,
               {"row, row: 12, seen: [\"rust 28 stitches\"]", "row, row: 12, seen: [\"rust 38 stitches\"]"},
               "50 of 3; the join of entry 4 was counted before, rust 28 stitches by entry 6; now rust 38 stitches, "
               "which holds: cancel what is wrong"},
           Row{"two counts in one entry",
               in,
               {"row, row: 12, seen: [\"rust 28 stitches\", \"rust 38 stitches\"]"},
               "50 of 3; the join of entry 4 was counted before, rust 28 stitches; now rust 38 stitches, which holds: "
               "cancel what is wrong"},
           Row{"the same count again",
               in,
               {"row, row: 12, seen: [\"rust 28 stitches\"]", "row, row: 12, seen: [\"rust 28 stitches\"]"},
               "70 of 3"},
           Row{"a count near a row that is not worked",
               in,
               {"row, row: 12, seen: [\"row 13 rust 28 stitches\"]"},
               "3 of 3; seen: row 13 is not worked yet: the work stands at row 12"},
           Row{"a change where nothing is worked",
               in,
               {"row, row: 13, stitch: 4, seen: [\"row 10 stitch 1 rust begins\", \"row 13 stitch 6 rust ends\"]"},
               "3 of 3; seen: row 13, stitch 6 is not worked yet: the work stands at row 13, stitch 4"},
           Row{"cancelled", in, {"row, row: 12, seen: [\"rust 28 stitches\"]", "cancel, entry: 6"}, "3 of 3"},
           Row{"far too many", in, {"row, row: 12, seen: [\"rust 200 stitches\"]"}, "3 of 3"},
           // Stitches 1 to 40 of row 10 are rust: 80 cm.
           Row{"both changes seen",
               in,
               {"row, row: 12, seen: [\"row 10 stitch 1 rust begins\", \"row 10 stitch 40 rust ends\"]"},
               "46 of 3"},
           Row{"the next colour begins",
               in,
               {"row, row: 12, seen: [\"row 10 stitch 1 rust begins\", \"row 10 stitch 41 plum begins\"]"},
               "46 of 3"},
           // Stitch 31 of row 9 to stitch 30 of row 10: 20 + 30 stitches and a turn, 110 cm.
           Row{"over a turn",
               in,
               {"row, row: 12, seen: [\"row 9 stitch 31 rust begins\", \"row 10 stitch 30 rust ends\"]"},
               "16 of 3"},
           Row{"no stitch told",
               in,
               {"row, row: 12, seen: [\"row 10 rust begins\", \"row 10 stitch 40 rust ends\"]"},
               "3 of 3"},
           Row{"not around the join",
               in,
               {"row, row: 12, seen: [\"row 10 stitch 30 rust begins\", \"row 10 stitch 40 rust ends\"]"},
               "3 of 3"},
           Row{"of two colours",
               in,
               {"row, row: 12, seen: [\"row 10 stitch 1 rust begins\", \"row 10 stitch 40 plum ends\"]"},
               "3 of 3"},
           Row{"ravelled away",
               in,
               {"row, row: 12, seen: [\"row 10 stitch 1 rust begins\", \"row 11 stitch 2 rust ends\"]", "rip, row: 10",
                "row, row: 12"},
               "3 of 3"},
       }) {
    CAPTURE(row.what);
    CHECK(shift_of(fold_of(joined(row.join, row.then))) == row.shift);
  }
}

// The loose end is 5 cm behind the join's middle, half an overlap; stitch 20 is 40 cm into its row.
TEST_CASE("the old end's reading says where the section that was counted lies, and which it is") {
  const std::string in = ", shift: 3 cm, old: ";
  const std::vector<std::string> rust{"row, row: 12, seen: [\"rust 28 stitches\"]"};
  const std::vector<std::string> plum{"row, row: 12, seen: [\"plum 28 stitches\"]"};
  struct Row {
    const char* what;
    std::string join;
    std::vector<std::string> then;
    std::string shift;
  };
  for (const Row& row : {
           Row{"it begins 60 cm before, in row 9: 126 - 28 * 2 - a turn", in + "\"rust 65, plum 20\"", rust, "60 of 3"},
           Row{"in row 10: 126 - 28 * 2", in + "\"rust 40, plum 20\"", rust, "70 of 3"},
           Row{"20 cm are cut off, the change lies 40 before", ", shift: 3 cm, trim_old: 20 cm, old: \"rust 65, plum\"",
               rust, "70 of 3"},
           Row{"of the colour beside it, 5 cm off", in + "\"rust 10, plum 30\"", plum, "94 of 3"},
           Row{"of another colour", in + "\"rust 65, plum 20\"", plum,
               "3 of 3; seen: 'plum 28 stitches': by its readings the join of entry 4 lies in rust; count that, or "
               "tell near which row the plum lies that was counted"},
           Row{"not told how far its beginning lies", in + "\"rust 65\"", rust, "70 of 3"},
       }) {
    CAPTURE(row.what);
    CHECK(shift_of(fold_of(joined(row.join, row.then))) == row.shift);
  }
}

TEST_CASE("a section seen from change to change made the stitches between them, turns or not") {
  const State state = fold_of(joined(
      ", shift: 3 cm", {"row, row: 12, seen: [\"row 9 stitch 31 rust begins\", \"row 10 stitch 30 rust ends\"]"}));
  REQUIRE(state.joins.front().seen);
  CHECK(state.joins.front().seen->stitches == 50);
}

TEST_CASE("a count is the last join's, or that of the one near the row it names") {
  const std::vector<std::string> log{"ball, ball: A",
                                     "ball, ball: B",
                                     "ball, ball: C",
                                     "begin, ball: A",
                                     "join, ball: B, row: 10, stitch: 20, shift: 0 cm",
                                     "join, ball: C, row: 20, stitch: 20, shift: 0 cm",
                                     "row, row: 30, seen: [\"rust 28 stitches\", \"row 11 rust 38 stitches\"]"};
  const State state = fold_of(log);
  CHECK(text_of(state.joins[0].shift) == "50");
  CHECK(text_of(state.joins[1].shift) == "70");
  CHECK(text_of(state.joins[1].running_shift) == "120");
  CHECK(text_of(state.totals.running_shift) == "120");
}

// B is joined at 10:20 and ravelled past, A cut and joined anew in row 5, so that C, which hung behind B, lands 110 cm
// earlier.
TEST_CASE("a count is that of the join which lies nearest now, not where it was told") {
  struct Row {
    const char* near;
    const char* counted;
  };
  const std::vector<std::string> log{"ball, ball: A",
                                     "ball, ball: B",
                                     "ball, ball: C",
                                     "begin, ball: A",
                                     "join, ball: B, method: woven, row: 10, stitch: 20",
                                     "join, ball: C, method: felted, row: 20, stitch: 20",
                                     "rip, row: 4",
                                     "join, ball: B, method: woven, row: 5, stitch: 20"};
  for (const Row& row : {Row{"row 4", "B"}, Row{"row 5 stitch 40", "B"}, Row{"row 9", "B"}, Row{"row 11", "C"},
                         Row{"row 14", "C"}, Row{"row 20", "C"}}) {
    CAPTURE(row.near);
    std::vector<std::string> told = log;
    told.push_back(fmt::format("row, row: 30, seen: [\"{} rust 28 stitches\"]", row.near));
    const State state = fold_of(told);
    std::string counted;
    for (const JoinState& join : state.joins) {
      if (join.seen) counted += join.new_ball;
    }
    CHECK(counted == row.counted);
  }
}

TEST_CASE("a count that bears out the recorded shift leaves that to be told, until many are off the same way") {
  // 63 stitches of 2 cm are a whole rust: by the count each join is in step.
  const std::string piece = "piece: {stitches: 50, yarn_per_stitch: 2 cm, foundation: 10 cm}\n";
  struct Row {
    int joins;
    const char* shift;
    const char* count;
    const char* told;
  };
  for (const Row& row : {Row{1, "0.8 cm", "63", "0.8"}, Row{1, "1.2 cm", "63", "0"}, Row{1, "-0.8 cm", "63", "-0.8"},
                         Row{1, "0.8 cm", "62.5", "0.8"}, Row{1, "0.8 cm", "63.5", "-1"}, Row{1, "0.4 cm", "64", "-2"},
                         Row{2, "0.6 cm", "63", "1.2"}, Row{4, "0.8 cm", "63", "0"}}) {
    CAPTURE(row.joins);
    CAPTURE(row.shift);
    CAPTURE(row.count);
    std::vector<std::string> log{"ball, ball: A"};
    for (int k = 1; k <= row.joins; ++k) {
      const std::string ball(1, static_cast<char>('A' + k));
      log.push_back("ball, ball: " + ball);
      log.push_back(fmt::format("join, ball: {}, row: {}, stitch: 25, shift: {}", ball, 10 * k, row.shift));
      log.push_back(fmt::format("row, row: {}, seen: [rust {} stitches]", 10 * k + 2, row.count));
    }
    const State state = fold_of(log, piece);
    CHECK(text_of(running_shift_told(state)) == row.told);
  }
}

TEST_CASE("what can't be read is a remark, and its row counts") {
  const State state = fold_of({"ball, ball: A", "row, row: 3, seen: [\"row 2 blue begins\", \"rust 12 stitches\"]"});
  CHECK(text_of(state.at) == "3:50");
  REQUIRE(state.troubles.size() == 2);
  CHECK_FALSE(state.troubles[0].skipped);
  CHECK(state.troubles[0].message == "seen: 'blue' is no colour of this yarn; write plum or rust");
  CHECK(state.troubles[1].message == "seen: 'rust 12 stitches' is for a joined section, and no join is in the work");
}

TEST_CASE("yarn that was ravelled back waits at the hook until it is worked again") {
  CHECK(text_of(fold_of({"ball, ball: A", "row, row: 10", "rip, row: 8"}).ravelled) == "220");
  CHECK(text_of(fold_of({"ball, ball: A", "row, row: 10", "rip, row: 8", "row, row: 9"}).ravelled) == "110");
  CHECK(text_of(fold_of({"ball, ball: A", "row, row: 10", "rip, row: 8", "row, row: 12"}).ravelled) == "0");
}
