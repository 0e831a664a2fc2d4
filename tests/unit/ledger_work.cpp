#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "ledger_log.hpp"

using namespace ballchange;

namespace {

struct Case {
  std::vector<std::string> log;
  std::string work, troubles = {};
};

void check(const std::vector<Case>& cases, const std::string& piece = kPiece) {
  for (const Case& c : cases) {
    CAPTURE(project_text(c.log, piece));
    const State state = fold_of(c.log, piece);
    CHECK(work_of(state) == c.work);
    CHECK(troubles_of(state) == c.troubles);
  }
}

}  // namespace

TEST_CASE("yarn used is foundation + (R-1) W + S w") {
  check({
      {{}, "- 0"},
      {{"row, row: 1, stitch: 0"}, "1:0 10"},                      // the foundation alone
      {{"row, row: 1"}, "1:50 110"},                               // 10 + 50 x 2
      {{"row, row: 10"}, "10:50 1100"},                            // 10 + 9 x 110 + 100
      {{"row, row: 10, stitch: 20"}, "10:20 1040"},                // 10 + 9 x 110 + 40
      {{"row, row: 10", "row, row: 12, stitch: 1"}, "12:1 1222"},  // 10 + 11 x 110 + 2
      {{"row, row: 10", "row, row: 10"}, "10:50 1100"},            // told twice
      {{"row, row: 10", "note, text: blocked it"}, "10:50 1100"},  // a note does nothing
      {{"row, row: 3, seen: [row 3 stitch 4 rust begins]"}, "3:50 330"},
  });
}

TEST_CASE("a place is told forwards, within the row") {
  check({
      {{"row, row: 10", "row, row: 9"},
       "10:50 1100",
       "2: row 9, stitch 50 lies before row 10, stitch 50, where the work stands; if it was ravelled back, tell that "
       "with rip\n"},
      {{"row, row: 10, stitch: 51"}, "- 0", "1: stitch 51 of a row of 50; write 0 to 50\n"},
  });
}

TEST_CASE("each stretch of the work counts by the gauge it was worked in") {
  check({
      {{"row, row: 10", "gauge, yarn_per_stitch: 2.4 cm", "row, row: 11"}, "11:50 1230"},  // 1100 + 10 + 50 x 2.4
      // From the twentieth stitch on: 1040 + 30 x 3, then a turn and 5 x 3.
      {{"row, row: 10, stitch: 20", "gauge, yarn_per_stitch: 3 cm", "row, row: 10"}, "10:50 1130"},
      {{"row, row: 10, stitch: 20", "gauge, yarn_per_stitch: 3 cm", "row, row: 11, stitch: 5"}, "11:5 1155"},
      {{"row, row: 10", "gauge, yarn_per_turn: 20 cm", "row, row: 11"}, "11:50 1220"},  // 1100 + 20 + 100
      {{"row, row: 10", "gauge, yarn_per_turn: 6 st", "row, row: 11"}, "11:50 1212"},   // a turn of 6 x 2 cm
      // Two changes: 1100, then 10 rows of 130, then 5 of 10 + 50 x 3 = 160.
      {{"row, row: 10", "gauge, yarn_per_stitch: 2.4 cm", "row, row: 20", "gauge, yarn_per_stitch: 3 cm",
        "row, row: 25"},
       "25:50 3200"},
      // Cancelled, it never was.
      {{"row, row: 10", "gauge, yarn_per_stitch: 2.4 cm", "row, row: 11", "cancel, entry: 2"}, "11:50 1210"},
      // Only a needle's size: no yarn changes.
      {{"row, row: 10", "gauge, size: 4 mm, stitches_in_10cm: 21.5", "row, row: 11"}, "11:50 1210"},
      {{"gauge, yarn_per_stitch: 2 st"},
       "- 0",
       "1: yarn_per_stitch is the length of yarn in one stitch; write it like 1.85 cm\n"},
  });
}

TEST_CASE("ravelling gives yarn and rows back, and the gauge stays") {
  check({
      {{"row, row: 10", "rip, row: 4"}, "4:50 440"},
      {{"row, row: 10", "rip, row: 0"}, "1:0 10"},                               // only the foundation is left
      {{"row, row: 10", "rip, row: 4", "row, row: 5, stitch: 25"}, "5:25 500"},  // 440 + 10 + 50
      {{"row, row: 10", "rip, row: 9", "rip, row: 8"}, "8:50 880"},
      // 1100 + 10 x 130 = 2400; back to row 5 of the first gauge, 550; on from there by the new one.
      {{"row, row: 10", "gauge, yarn_per_stitch: 2.4 cm", "row, row: 20", "rip, row: 5", "row, row: 6"}, "6:50 680"},
      {{"row, row: 10", "gauge, yarn_per_stitch: 2.4 cm", "row, row: 20", "rip, row: 15", "row, row: 16"},
       "16:50 1880"},
      {{"row, row: 10", "rip, row: 4", "cancel, entry: 2", "row, row: 11"}, "11:50 1210"},
      {{"rip, row: 4"}, "- 0", "1: nothing is worked yet; tell where the work stands with row first\n"},
      {{"row, row: 10", "rip, row: 10"},
       "10:50 1100",
       "2: the end of row 10 isn't behind row 10, stitch 50, where the work stands; name a row that is finished\n"},
  });
}

TEST_CASE("a gauge that is told only later holds for what was worked before it") {
  const std::string piece = "piece: {stitches: 50, foundation: 5 st}\n";  // the foundation: 5 x 2 = 10 cm
  check(
      {
          {{"row, row: 10", "gauge, yarn_per_stitch: 2 cm"}, "10:50 1010"},  // 10 + 10 x 100
          {{"row, row: 10", "gauge, yarn_per_stitch: 2 cm, yarn_per_turn: 10 cm", "row, row: 11"}, "11:50 1210"},
          {{"row, row: 10", "gauge, yarn_per_stitch: 2 cm", "gauge, yarn_per_stitch: 3 cm", "row, row: 11"},
           "11:50 1160"},  // 1010 + 150
      },
      piece);
}

TEST_CASE("without yarn per stitch or stitches the yarn in the work is not known") {
  check({{{"row, row: 10"}, "10:50 ?"}}, "piece: {stitches: 50}\n");
  check({{{"row, row: 10"}, "10 ?"}, {{"row, row: 1, stitch: 30"}, "1:30 60"}, {{"row, row: 2, stitch: 1"}, "2:1 ?"}},
        "piece: {yarn_per_stitch: 2 cm}\n");
  check(
      {{{},
        "- 0",
        "0 (counts): foundation: stitches, but the yarn per stitch is not known: write cm or in, or tell the yarn per "
        "stitch with gauge\n"}},
      "piece: {foundation: 100 st}\n");
}

TEST_CASE("a cancel takes an entry out, and what follows is checked without it") {
  const std::string gone = "3: ball B was never added; add it with ball first\n";
  check({
      {{"row, row: 10", "row, row: 20", "cancel, entry: 2"}, "10:50 1100"},
      {{"ball, ball: A", "ball, ball: B", "swatch, ball: B, length: 1 m", "cancel, entry: 2"}, "- 0", gone},
      // Cancelled itself, it cancels nothing; once more, it does.
      {{"row, row: 10", "row, row: 20", "cancel, entry: 2", "cancel, entry: 3"}, "20:50 2200"},
      {{"row, row: 10", "row, row: 20", "cancel, entry: 2", "cancel, entry: 3", "cancel, entry: 4"}, "10:50 1100"},
      {{"row, row: 10", "cancel, entry: 1", "cancel, entry: 1"},
       "- 0",
       "3: entry 1 is cancelled already, by entry 2\n"},
      {{"row, row: 10", "cancel, entry: 2"}, "10:50 1100", "2: entry 2 doesn't stand before it; name an earlier one\n"},
      {{"row, row: 10", "cancel, entry: 3"}, "10:50 1100", "2: entry 3 doesn't stand before it; name an earlier one\n"},
  });
}

TEST_CASE("before an entry is recorded it is told what would no longer fit") {
  struct Next {
    std::vector<std::string> log;
    std::string next, troubles;
  };
  const std::vector<Next> cases{
      {{"ball, ball: A"}, "row, row: 3", ""},
      {{"ball, ball: A"}, "weigh, ball: B, mass: 20 g", "2: ball B was never added; add it with ball first\n"},
      {{"row, row: 3", "rip, row: 1"},
       "cancel, entry: 1",
       "2: nothing is worked yet; tell where the work stands with row first\n"},
      // What didn't fit before is not told again.
      {{"rip, row: 1"}, "row, row: 3", ""},
      {{"row, row: 3"}, "cancel, entry: 2", "2: entry 2 doesn't stand before it; name an earlier one\n"},
  };
  for (const Next& c : cases) {
    CAPTURE(c.next);
    std::vector<std::string> log = c.log;
    log.push_back(c.next);
    const Project with = project_of(log);
    const Project project = project_of(c.log);
    const Checked checked = check_next(project, fold(project), with.entries.back().what);
    State state(project.yarn);
    state.troubles = checked.troubles;
    CHECK(troubles_of(state) == c.troubles);
    CHECK(work_of(checked.after) == work_of(fold(with)));
  }
}
