#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "ledger_log.hpp"

using namespace ballchange;

namespace {

struct Row {
  std::vector<std::string> log;
  std::string said;  // of the last entry
};

void check(const std::vector<Row>& rows, const std::string& piece = kPiece) {
  for (const Row& row : rows) {
    CAPTURE(project_text(row.log, piece));
    CHECK(troubles_of(fold_of(row.log, piece)) == std::to_string(row.log.size()) + row.said + "\n");
  }
}

const std::string kA = "ball, ball: A", kB = "ball, ball: B", kBegin = "begin, ball: A";

}  // namespace

TEST_CASE("an entry that can't be as it stands says why") {
  check({
      {{kA, kB, kBegin, "join, ball: B, row: 10", "swatch, ball: A, length: 1 m"},
       ": ball A is used up; name the ball the swatch was worked from"},
      {{kA, kB, kBegin, "row, row: 10", "join, ball: B, at_least: true"},
       ": at_least says little without its row; write row too"},
      {{kB, "join, ball: B, row: 10", "rip, row: 5", "join, ball: B, knot: true, row: 6"},
       ": a knot lies within one ball, and ball B is not being worked; at a ball change leave out knot"},
      {{kA, kB, kBegin, "join, ball: B, row: 20", "rip, row: 10", "weigh, ball: A, mass: 20 g"},
       ": ball A hangs together with ball B, joined ahead of the work, and can't be weighed by itself; weigh ball B "
       "once "
       "the work is past the join"},
      {{"gauge, yarn_per_stitch: 20 m"}, ": yarn_per_stitch is out of reach; a stitch takes from 0.1 mm to 10 m"},
      {{"gauge, stitches_in_10cm: 2000"},
       ": stitches_in_10cm is out of reach; a number from 0.1 to 1000, like 18 or 18.5"},
      {{"gauge, washed_rows_in_10cm: 0.05"},
       ": washed_rows_in_10cm is out of reach; a number from 0.1 to 1000, like 18 or 18.5"},
  });
}

TEST_CASE("what needs the yarn per stitch says so where it isn't known") {
  check({{{kA, kB, kBegin, "join, ball: B, row: 10"},
          " (counts): its allowance is counted in stitches; tell the yarn per stitch with gauge, or it counts as "
          "nothing"},
         {{kA, kB, kBegin, "join, ball: B, row: 10, allowance: 8 cm", "row, row: 12, seen: [\"rust 28 stitches\"]"},
          " (counts): seen: 'rust 28 stitches' says no length while the yarn per stitch isn't known; tell it with "
          "gauge"}},
        "piece: {stitches: 50, rows: 100}\njoin: {method: doubled}\n");
}

TEST_CASE("a reading on record that can't be read is told, until that end is told again") {
  const std::string no_colour = "entry 1: no colour: the colour stands first, then its length, like plum 15";
  check({
      {{"ball, ball: A, outside: -1"}, " (counts): ball A, outside end, " + no_colour},
      {{"ball, ball: A, inside: true"},
       " (counts): ball A, inside end, entry 1: no colour 'true' in this yarn: write plum or rust"},
      {{kA, "ball, ball: A, outside: \"plum 15, teal 3\""},
       " (counts): ball A, outside end, entry 2: no colour 'teal' in this yarn: write plum or rust"},
      {{kA, kB, kBegin, "join, ball: B, row: 10, old: \"plum\", new: \"3\""}, " (counts): new, " + no_colour},
      {{kA, kB, kBegin, "join, ball: B, row: 10, old: \"plum 3, | rust\", new: \"plum 3, rust\""},
       " (counts): old, entry 2: a bar tells of a change right at an end: write it first or last, or not at all"},
  });
  CHECK(troubles_of(fold_of({"ball, ball: A, outside: -1", "ball, ball: A, inside: 5"})) ==
        "1 (counts): ball A, outside end, " + no_colour + "\n2 (counts): ball A, inside end, " + no_colour + "\n");
  CHECK(troubles_of(fold_of({"ball, ball: A, outside: -1", "ball, ball: A, outside: \"plum 15, rust\""})).empty());
}

TEST_CASE("a reading in stitches is no trouble while the yarn they take may still be told") {
  const std::string piece = "piece: {stitches: 50, rows: 100}\n";
  CHECK(troubles_of(fold_of({"ball, ball: A, outside: \"plum 15 st, rust\""}, piece)).empty());
}
