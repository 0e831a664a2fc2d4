// Long: logs, each with all that it makes of its balls.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "ledger_log.hpp"

using namespace ballchange;

namespace {

struct Case {
  std::vector<std::string> log;
  std::string balls, joins = {}, troubles = {};
};

void check(const std::vector<std::string>& begin, const std::vector<Case>& cases) {
  for (const Case& c : cases) {
    std::vector<std::string> log = begin;
    log.insert(log.end(), c.log.begin(), c.log.end());
    CAPTURE(project_text(log));
    const State state = fold_of(log);
    CHECK(balls_of(state) == c.balls);
    CHECK(joins_of(state) == c.joins);
    CHECK(troubles_of(state) == c.troubles);
  }
}

}  // namespace

TEST_CASE("a ball is as long as told, by its mass, or by the ball band") {
  check({},
        {
            {{"ball, ball: A"}, "A fresh 5000"},
            {{"ball, ball: A, mass: 45 g"}, "A fresh 4500"},
            {{"ball, ball: A, mass: 45 g, length: 30 m"}, "A fresh 3000"},
            {{"ball, ball: A, plain: true"}, "A fresh ?"},
            {{"ball, ball: A, plain: true, length: 80 m"}, "A fresh 8000"},
            {{"ball, ball: A", "ball, ball: A, mass: 45 g"}, "A fresh 4500"},  // told later
            {{"ball, ball: A", "swatch, ball: A, length: 1 m", "ball, ball: A, mass: 45 g"}, "A fresh 4400", "", ""},
            {{"ball, ball: A", "ball, ball: A"},
             "A fresh 5000",
             "",
             "2: ball A is there already, since entry 1; tell what is new about it, or name another\n"},
            {{"ball, ball: A", "begin, ball: A", "ball, ball: A, mass: 45 g"},
             "A working 5000",
             "",
             "3: ball A is in the work already; leave out mass and length\n"},
        });
}

TEST_CASE("an end that a swatch was cut from is to be read again until it was") {
  const std::string again =
      "2 (counts): the outside end of ball A was read before yarn was taken for a swatch; read it again\n";
  const std::string swatch = "swatch, ball: A, length: 1 m";
  check({"ball, ball: A, outside: plum 20"},
        {
            {{swatch}, "A fresh 4900", "", again},
            {{swatch, "ball, ball: A, inside: rust 20"}, "A fresh 4900", "", again},
            {{swatch, "ball, ball: A, outside: rust 20"}, "A fresh 4900"},
            {{swatch, "ball, ball: A, outside: rust 20", "swatch, ball: A, length: 1 m"},
             "A fresh 4800",
             "",
             "4 (counts): the outside end of ball A was read before yarn was taken for a swatch; read it again\n"},
        });
}

TEST_CASE("the ball in the work is the one it began with, or else the first that was added") {
  check(
      {"ball, ball: A", "ball, ball: B"},
      {
          {{"begin, ball: B", "row, row: 10"}, "A fresh 5000, B working 3900"},                   // 5000 - 1100
          {{"begin, ball: A, trim_new: 60 cm", "row, row: 10"}, "A working 3840, B fresh 5000"},  // 5000 - 60 - 1100
          {{"row, row: 10", "begin, ball: A"}, "A working 3900, B fresh 5000"},
          {{"row, row: 10"}, "A working 3900, B fresh 5000"},
          {{"row, row: 40", "join, ball: A"}, "A working 4995, B fresh 5000", "-A 40:50"},
          {{"begin, ball: A", "begin, ball: B"},
           "A working 5000, B fresh 5000",
           "",
           "4: the work is begun already; another ball comes in with a join\n"},
          {{"begin, ball: C"}, "A fresh 5000, B fresh 5000", "", "3: ball C was never added; add it with ball first\n"},
      });
  check({}, {
                {{"join, ball: A"}, "", "", "1: ball A was never added; add it with ball first\n"},
                // The first ball was never told: what was joined to is not known.
                {{"ball, ball: B", "row, row: 40", "join, ball: B"}, "B working 4995", "-B 40:50"},
                {{"ball, ball: B", "join, ball: B"}, "B working 4995", "-B -"},
                // A plain second yarn is never taken for it.
                {{"ball, ball: P, plain: true", "row, row: 10"}, "P fresh ?"},
                {{"ball, ball: P, plain: true", "ball, ball: B", "row, row: 40", "join, ball: B"},
                 "P fresh ?, B working 4995",
                 "-B 40:50"},
            });
}

TEST_CASE("a join takes half its allowance from each end, and what was cut off is gone") {
  check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 40"},
        {
            {{"join, ball: B"}, "A used up, B working 4995", "A-B 40:50"},
            // 5000 - 48 - 4, then a row of 110.
            {{"join, ball: B, method: felted, allowance: 8 cm, trim_old: 20 cm, trim_new: 48 cm", "row, row: 41"},
             "A used up, B working 4838",
             "A-B 40:50"},
            {{"join, ball: B, method: woven"}, "A used up, B working 4987.5", "A-B 40:50"},   // 25 cm by custom
            {{"join, ball: B, method: doubled"}, "A used up, B working 4994", "A-B 40:50"},   // 6 stitches of 2 cm
            {{"join, ball: B, allowance: 10 st"}, "A used up, B working 4990", "A-B 40:50"},  // 10 of 2 cm
            // Its middle may lie ahead: 4400 + 10 + 50. The work is there once it is made ...
            {{"join, ball: B, row: 41, stitch: 25", "row, row: 42"}, "A used up, B working 4835", "A-B 41:25"},
            // ... unless told otherwise: 40 cm of A are still to be worked.
            {{"join, ball: B, row: 41, stitch: 25", "row, row: 41, stitch: 5"},
             "A working 40, B ahead 4995",
             "A-B ahead 41:25"},
        });
}

TEST_CASE("a join that doesn't fit is told and counts for nothing") {
  const std::string still = "A working 600, B fresh 5000";
  check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 40"},
        {
            {{"join, ball: C"}, still, "", "5: ball C was never added; add it with ball first\n"},
            {{"join, ball: A"},
             still,
             "",
             "5: ball A is being worked already; tell a knot inside it with knot: true, or name the fresh ball\n"},
            {{"join, ball: B, knot: true"},
             still,
             "",
             "5: a knot lies within one ball, and ball A is being worked; name that one\n"},
            {{"join, ball: B, stitch: 4"}, still, "", "5: stitch says little without its row; write row too\n"},
            {{"join, ball: B, row: 39, stitch: 51"}, still, "", "5: stitch 51 of a row of 50; write 0 to 50\n"},
            {{"join, ball: B", "join, ball: A"},
             "A used up, B working 4995",
             "A-B 40:50",
             "6: ball A is used up or joined already; name a fresh ball\n"},
            {{"join, ball: B", "ball, ball: C", "join, ball: C, row: 39"},
             "A used up, B working 4995, C fresh 5000",
             "A-B 40:50",
             "7: it lies before the join of entry 5; write row and stitch where it fell, or, if it was only forgotten, "
             "cancel entry 5 first, record this one and then that one again\n"},
        });
}

TEST_CASE("ravelled back past, a felted, threaded or knotted join stays, and lands when the yarn is worked again") {
  for (const std::string method : {"felted", "threaded", "knotted"}) {
    CAPTURE(method);
    const std::string join = "join, ball: B, allowance: 10 cm, method: " + method;
    check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 40", join, "row, row: 45", "rip, row: 30"},
          {
              {{}, "A working 1100, B ahead 4995", "A-B ahead 40:50"},  // 4400 - 3300
              {{"row, row: 35"}, "A working 550, B ahead 4995", "A-B ahead 40:50"},
              {{"row, row: 42"}, "A used up, B working 4775", "A-B 40:50"},  // 4995 - 220
              // 1100 cm at 10 + 50 x 2.4 = 130 a row: 8 rows, 60 cm over: a turn and 20.8 stitches.
              {{"gauge, yarn_per_stitch: 2.4 cm"}, "A working 1100, B ahead 4995", "A-B ahead 39:21"},
              {{"gauge, yarn_per_stitch: 2.4 cm", "row, row: 39"}, "A used up, B working 4925", "A-B 39:21"},
              {{"rip, row: 10", "row, row: 41"}, "A used up, B working 4885", "A-B 40:50"},
          });
  }
}

TEST_CASE("ravelled back past, a woven or doubled join comes apart: its allowance is yarn again, its trims are not") {
  check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 40",
         "join, ball: B, method: woven, trim_old: 20 cm, trim_new: 48 cm", "row, row: 45", "rip, row: 30"},
        {
            // 4400 + 12.5 - 3300; 5000 - 48
            {{}, "A working 1112.5, B fresh 4952", "A-B apart"},
            {{"row, row: 35", "join, ball: B, method: woven"}, "A used up, B working 4939.5", "A-B apart, A-B 35:50"},
            {{"ball, ball: C", "row, row: 35", "join, ball: C"},
             "A used up, B fresh 4952, C working 4995",
             "A-B apart, A-C 35:50"},
        });
  check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 40", "join, ball: B, method: doubled",
         "rip, row: 30"},
        {{{}, "A working 1106, B fresh 5000", "A-B apart"}});
  // Where ravelling stops at the join, it holds.
  check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 40", "join, ball: B, method: woven",
         "row, row: 45", "rip, row: 40"},
        {{{}, "A used up, B working 4987.5", "A-B 40:50"}});
}

TEST_CASE("several joins ravelled past: each by its own method") {
  const auto log = [](const std::string& first, const std::string& second) {
    return std::vector<std::string>{"ball, ball: A", "ball, ball: B",
                                    "ball, ball: C", "begin, ball: A",
                                    "row, row: 40",  "join, ball: B, method: " + first,
                                    "row, row: 80",  "join, ball: C, method: " + second,
                                    "row, row: 90",  "rip, row: 30"};
  };
  check(log("threaded", "threaded"),
        {{{}, "A working 1100, B ahead 4400, C ahead 4995", "A-B ahead 40:50, B-C ahead 80:50"}});
  // B from 4400 to 8800, and half of the 25 cm.
  check(log("threaded", "woven"), {{{}, "A working 1100, B ahead 4412.5, C fresh 5000", "A-B ahead 40:50, B-C apart"}});
  check(log("woven", "threaded"),
        {
            // C hangs on B still, but where that will land is open.
            {{}, "A working 1112.5, B fresh 4412.5, C ahead 4995", "A-B apart, B-C ahead -"},
            // B gives 5 cm to the join at row 35, 3850 cm; C comes 4407.5 later, at 8257.5 = 75 rows and into the turn.
            {{"row, row: 35", "join, ball: B"},
             "A used up, B working 4407.5, C ahead 4995",
             "A-B apart, B-C ahead 75:50, A-B 35:50"},
            // Cut off past the old join: 4412.5 of B and its 5 of the join, 82.5 of C; then 5 for the new one.
            {{"join, ball: B, trim_new: 45 m"},
             "A used up, B used up, C working 4902.5",
             "A-B apart, B-C cut out, A-B 30:50"},
        });
}

TEST_CASE("a new join before one that is ahead cuts that one out") {
  check({"ball, ball: A", "ball, ball: B", "ball, ball: C", "begin, ball: A", "row, row: 40", "join, ball: B",
         "rip, row: 30"},
        {
            // B lost 5 cm to either join.
            {{"join, ball: B"}, "A used up, B working 4985, C fresh 5000", "A-B cut out, A-B 30:50"},
            {{"join, ball: C"}, "A used up, B fresh 4990, C working 4995", "A-B cut out, A-C 30:50"},
        });
}

TEST_CASE("a woven join that hangs behind a strand joined anew comes apart as well") {
  // Both joins are told ahead of the work, so that no ravelling has passed them before B is joined again.
  check({"ball, ball: A", "ball, ball: B", "ball, ball: C", "ball, ball: D", "begin, ball: A", "row, row: 40",
         "join, ball: B, method: woven, row: 42", "join, ball: C, method: woven, row: 60", "row, row: 41",
         "join, ball: D", "row, row: 50", "join, ball: B", "row, row: 51"},
        {
            // B held 1980 between its joins: 12.5 were cut off with the first, 5 lie in the new one, 110 in the work.
            {{},
             "A used up, B working 1852.5, C ahead 4987.5, D used up",
             "A-B cut out, B-C ahead 68:41, A-D 41:50, D-B 50:50"},
            {{"rip, row: 49"},
             "A used up, B ahead 1975, C fresh 5000, D working 110",
             "A-B cut out, B-C apart, A-D 41:50, D-B ahead 50:50"},
        });
}

TEST_CASE("on the scale with a knot ahead of the work lies all the ball, what the knot takes too") {
  // 5000 less 1100 in the work: 3900 hang from the hook, 10 of them in the knot.
  check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 18", "join, ball: A, knot: true",
         "row, row: 20", "rip, row: 10"},
        {
            {{"weigh, ball: A, mass: 39 g"}, "A working 3900, B fresh 5000", "A-A ahead 18:50"},
            {{"weigh, ball: A, mass: 38 g"}, "A working 3800, B fresh 5000", "A-A ahead 18:50"},
            {{"weigh, ball: A, mass: 38 g", "row, row: 20"}, "A working 2700, B fresh 5000", "A-A 18:50"},
        });
  const std::vector<std::string> made{"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 18",
                                      "join, ball: A, knot: true, method: threaded"};
  const auto then = [&](std::vector<std::string> more) {
    std::vector<std::string> log = made;
    log.insert(log.end(), more.begin(), more.end());
    return log;
  };
  check(then({"row, row: 20", "rip, row: 10"}),
        {
            {{"weigh, ball: A, mass: 38 g"}, "A working 3790, B fresh 5000", "A-A ahead 18:50"},
            {{"weigh, ball: A, mass: 38 g", "row, row: 20"}, "A working 2690, B fresh 5000", "A-A 18:50"},
            {{"weigh, ball: A, mass: 38 g", "join, ball: B, row: 15"},
             "A fresh 2905, B working 4995",
             "A-A cut out, A-B 15:50"},
        });
  // It hangs together with the next ball, not with itself.
  check(then({"row, row: 40", "join, ball: B", "row, row: 45", "rip, row: 10"}),
        {{{"weigh, ball: A, mass: 38 g"},
          "A working 3300, B ahead 4995",
          "A-A ahead 18:50, A-B ahead 40:50",
          "10: ball A hangs together with ball B, joined ahead of the work, and can't be weighed by itself; weigh ball "
          "B once the work is past the join\n"}});
}

TEST_CASE("a knot in a ball that waits ahead, or lies loose, is weighed with it") {
  for (const std::string method : {"threaded", "woven"}) {
    CAPTURE(method);
    const bool apart = method == "woven";
    check({"ball, ball: A", "ball, ball: B", "begin, ball: A", "row, row: 40", "join, ball: B, method: " + method,
           "row, row: 45", "join, ball: B, knot: true, method: threaded", "row, row: 50", "rip, row: 30"},
          {{{"weigh, ball: B, mass: 40 g"},
            apart ? "A working 1112.5, B fresh 3990" : "A working 1100, B ahead 3990",
            apart ? "A-B apart, B-B ahead -" : "A-B ahead 40:50, B-B ahead 45:50"}});
  }
}

TEST_CASE("a knot joins a ball to itself") {
  check({"ball, ball: A", "begin, ball: A", "row, row: 10"},
        {
            {{"join, ball: A, knot: true"}, "A working 3900", "A-A 10:50"},  // left as it is
            {{"join, ball: A, knot: true, method: knotted"}, "A working 3880", "A-A 10:50"},
            // Cut out: 10 + 20, and 10 for the join.
            {{"join, ball: A, knot: true, trim_old: 10 cm, trim_new: 20 cm"}, "A working 3860", "A-A 10:50"},
            {{"join, ball: A, knot: true", "row, row: 20", "rip, row: 5"}, "A working 4450", "A-A ahead 10:50"},
            // Woven, it comes apart: 550 + 12.5 and 3900 - 12.5 + 25.
            {{"join, ball: A, knot: true, method: woven", "rip, row: 5"}, "A working 4450", "A-A apart"},
            {{"join, ball: A, knot: true, method: woven", "rip, row: 5", "join, ball: A, knot: true, method: threaded"},
             "A working 3882.5",
             "A-A apart, A-A 5:50"},
        });
  check({"ball, ball: A", "ball, ball: B", "row, row: 4"},
        {{{"join, ball: B, knot: true"}, "A fresh 5000, B working 4560", "B-B 4:50"}});
}

TEST_CASE("the scale says what is left") {
  check({"ball, ball: A", "ball, ball: B, mass: 48 g"},
        {
            {{"weigh, ball: A, mass: 30 g"}, "A fresh 3000, B fresh 4800"},
            {{"weigh, ball: B, mass: 24 g"}, "A fresh 5000, B fresh 2400"},
            {{"begin, ball: A", "row, row: 10", "weigh, ball: A, mass: 30 g"}, "A working 3000, B fresh 4800"},
            {{"begin, ball: A", "row, row: 10", "weigh, ball: A, mass: 30 g", "row, row: 11"},
             "A working 2890, B fresh 4800"},
            {{"begin, ball: A", "weigh, ball: A, mass: 30 g", "row, row: 10"}, "A working 1900, B fresh 4800"},
            {{"row, row: 10", "weigh, ball: A, mass: 30 g", "row, row: 11"}, "A working 2890, B fresh 4800"},
            {{"row, row: 40", "join, ball: B", "rip, row: 30", "weigh, ball: B, mass: 20 g"},
             "A working 1100, B ahead 2000",
             "A-B ahead 40:50"},
            {{"row, row: 40", "join, ball: B", "weigh, ball: A, mass: 2 g"},
             "A used up, B working 4795",
             "A-B 40:50",
             "5: ball A is used up; nothing of it is left to weigh\n"},
        });
  check({"ball, ball: P, plain: true"},
        {{{"weigh, ball: P, mass: 20 g"}, "P fresh ?"},
         {{"ball, ball: P, length: 120 m", "weigh, ball: P, mass: 20 g"},
          "P fresh 12000",
          "",
          "3 (counts): ball P: its mass says no length while mass and length of a whole ball aren't known\n"},
         // 24 of 50 g, once that is told.
         {{"weigh, ball: P, mass: 24 g", "ball, ball: P, mass: 50 g, length: 200 m"}, "P fresh 9600"}});
}

TEST_CASE("a ball told again after it was weighed is as it would be had that been told at once") {
  const auto weighings = [](const std::vector<std::string>& log) {
    std::string out;
    for (const Weighing& one : fold_of(log).weighings) out += text_of(one.expected) + " " + text_of(one.left) + ", ";
    return out;
  };
  // Told late, and the same told at once: the same balls, and the same of each weighing.
  struct Row {
    std::vector<std::string> late, at_once;
    std::string balls;
  };
  const std::string fresh = "ball, ball: A, mass: 100 g";
  for (const Row& row : {
           Row{{fresh, "weigh, ball: A, mass: 90 g", "ball, ball: A, mass: 95 g"},
               {"ball, ball: A, mass: 95 g", "weigh, ball: A, mass: 90 g"},
               "A fresh 9000"},
           {{fresh, "weigh, ball: A, mass: 96 g", "ball, ball: A, mass: 99 g", "ball, ball: A, mass: 97 g"},
            {"ball, ball: A, mass: 97 g", "weigh, ball: A, mass: 96 g"},
            "A fresh 9600"},
           // 40 of 50 g are 96 of 120 m.
           {{"ball, ball: P, plain: true, mass: 50 g, length: 100 m", "weigh, ball: P, mass: 40 g",
             "ball, ball: P, length: 120 m"},
            {"ball, ball: P, plain: true, mass: 50 g, length: 120 m", "weigh, ball: P, mass: 40 g"},
            "P fresh 9600"},
           // What a swatch took since stays taken.
           {{fresh, "weigh, ball: A, mass: 90 g", "swatch, ball: A, length: 3 m", "weigh, ball: A, mass: 86 g",
             "swatch, ball: A, length: 2 m", "ball, ball: A, mass: 91 g, length: 182 m"},
            {"ball, ball: A, mass: 91 g, length: 182 m", "weigh, ball: A, mass: 90 g", "swatch, ball: A, length: 3 m",
             "weigh, ball: A, mass: 86 g", "swatch, ball: A, length: 2 m"},
            "A fresh 17000"},
       }) {
    CAPTURE(project_text(row.late));
    CHECK(balls_of(fold_of(row.late)) == row.balls);
    CHECK(balls_of(fold_of(row.at_once)) == row.balls);
    CHECK(weighings(row.late) == weighings(row.at_once));
    CHECK(troubles_of(fold_of(row.late)).empty());
  }
}

TEST_CASE("a weighing that can't be counts for nothing") {
  const std::string heavier = "and can't weigh 52 g now; write what the scale said, or the ball that was weighed";
  check({"ball, ball: A, mass: 50 g"},
        {
            {{"weigh, ball: A, mass: 52 g"}, "A fresh 5000", "", "2: ball A weighed 50 g at entry 1 " + heavier + "\n"},
            {{"weigh, ball: A, mass: 51 g"}, "A fresh 5100"},  // each is rounded
            {{"weigh, ball: A, mass: 52 g, scale: 2 g"}, "A fresh 5200"},
            {{"weigh, ball: A, mass: 31 g", "weigh, ball: A, mass: 52 g"},
             "A fresh 3100",
             "",
             "3: ball A weighed 31 g at entry 2 " + heavier + "; or cancel entry 2, if that was misread\n"},
            {{"weigh, ball: A, mass: 31 g", "weigh, ball: A, mass: 32.1 g"},
             "A fresh 3100",
             "",
             "3: ball A weighed 31 g at entry 2 and can't weigh 32.1 g now; write what the scale said, or the ball "
             "that was weighed; or cancel entry 2, if that was misread\n"},
            // Yarn that was ravelled may be wound onto it again, but no more than it ever held.
            {{"begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 25 g", "rip, row: 10",
              "weigh, ball: A, mass: 37 g"},
             "A working 3700"},
            {{"begin, ball: A", "row, row: 20", "weigh, ball: A, mass: 25 g", "rip, row: 10",
              "weigh, ball: A, mass: 52 g"},
             "A working 3600",
             "",
             "6: ball A weighed 50 g at entry 1 " + heavier + "\n"},
            {{"weigh, ball: A, mass: 48 g", "ball, ball: A, mass: 40 g"},
             "A fresh 4800",
             "",
             "3: mass: ball A weighed 48 g at entry 2, and the whole ball can't have weighed 40 g; cancel entry 2, if "
             "that was misread\n"},
        });
  check({"ball, ball: A"}, {{{"weigh, ball: A, mass: 60 g"}, "A fresh 6000"}});  // nobody said how heavy it was
}

TEST_CASE("from which end a ball is worked can't be told anew while it is in the work") {
  const std::string in_work =
      ": ball A is in the work already, from its outside end; leave out from, or cancel the entry it came in with\n";
  check({"ball, ball: A, inside: rust 20"},
        {
            {{"begin, ball: A", "ball, ball: A, from: inside"}, "A working 5000", "", "3" + in_work},
            {{"begin, ball: A", "ball, ball: A, from: outside, dye_lot: x"}, "A working 5000"},
            {{"ball, ball: A, from: inside", "begin, ball: A"}, "A working 5000"},
        });
  const State state = fold_of({"ball, ball: A, inside: rust 20", "begin, ball: A", "ball, ball: A, from: inside"});
  CHECK(state.balls.front().other_reading() == "rust 20");
}

TEST_CASE("a swatch takes yarn from its ball") {
  check(
      {"ball, ball: A"},
      {
          {{"swatch, ball: A, length: 3 m"}, "A fresh 4700"},
          {{"begin, ball: A", "row, row: 10", "swatch, ball: A, length: 3 m"}, "A working 3600"},
          {{"swatch, ball: B, length: 3 m"}, "A fresh 5000", "", "2: ball B was never added; add it with ball first\n"},
      });
}

TEST_CASE("a reading is kept for as long as the end is as it was read") {
  struct Ends {
    std::vector<std::string> log;
    std::string outside, inside;
  };
  const std::string ball = "ball, ball: A, outside: plum 15, inside: rust 20";
  const std::string woven = "join, ball: B, method: woven";
  const std::vector<Ends> cases{
      {{ball}, "plum 15", "rust 20"},
      {{ball, "ball, ball: A, outside: rust 3"}, "rust 3", "rust 20"},
      {{ball, "begin, ball: A"}, "", "rust 20"},
      {{ball, "ball, ball: A, from: inside", "begin, ball: A"}, "plum 15", ""},
      {{ball, "swatch, ball: A, length: 1 m"}, "", "rust 20"},
      {{ball, "row, row: 3"}, "", "rust 20"},
      // Joined and come apart again, the end is another.
      {{"ball, ball: B", "begin, ball: B", ball, "row, row: 4", "join, ball: A, method: woven", "rip, row: 2"},
       "",
       "rust 20"},
      {{"ball, ball: B", "begin, ball: B", ball, "row, row: 4", "join, ball: A, method: woven", "rip, row: 2",
        "ball, ball: A, outside: rust 9"},
       "rust 9",
       "rust 20"},
      // The end it was joined by at last is trimmed, whatever becomes of the join; at a knot it is left alone, until
      // the knot comes apart and both loose ends lie inside the ball.
      {{ball, "ball, ball: B", "row, row: 4", "join, ball: B, method: woven, trim_old: 28.5 cm", "rip, row: 2"},
       "",
       ""},
      {{ball, "ball, ball: B", "row, row: 4", "join, ball: B", "rip, row: 2"}, "", ""},
      {{ball, "row, row: 4", "join, ball: A, knot: true, method: woven, trim_old: 3 cm"}, "", "rust 20"},
      {{ball, "row, row: 4", "join, ball: A, knot: true, method: woven, trim_old: 3 cm", "rip, row: 2"}, "", ""},
  };
  for (const Ends& c : cases) {
    CAPTURE(project_text(c.log));
    const State state = fold_of(c.log);
    const auto ball_a = std::find_if(state.balls.begin(), state.balls.end(), [](const auto& b) { return b.id == "A"; });
    REQUIRE(ball_a != state.balls.end());
    CHECK(ball_a->outside.value_or("") == c.outside);
    CHECK(ball_a->inside.value_or("") == c.inside);
  }
}
