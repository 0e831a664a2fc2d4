#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "files/project.hpp"
#include "ledger/fold.hpp"

using namespace ballchange;

namespace {

const std::string kFormat = "format: ballchange project 1\n";
const std::string kYarn = "yarn: {name: Tally, repeat: [{colour: plum, length: 92}, {colour: rust, length: 80}]}\n";
const std::string kHead = kFormat + kYarn;

std::string outcome(const std::string& text) {
  try {
    (void)read_project(text, "p.yaml");
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::content);
    return problem.what();
  }
  return "accepted";
}

struct Row {
  std::string text, message;
};

void check(const std::vector<Row>& rows, const std::string& before = {}, const std::string& after = {}) {
  for (const Row& row : rows) {
    const std::string text = before + row.text + after;
    CAPTURE(text);
    CHECK(outcome(text) == "p.yaml:" + row.message);
  }
}

// As entry 1, on line 4.
const std::string kEntry = kHead + "log:\n  - {n: 1, at: 2026-03-02T19:20:00Z, did: ";

Project project_with(const std::string& entry) { return read_project(kEntry + entry + "}\n", "p.yaml").project; }

}  // namespace

TEST_CASE("the example of the manual is read whole") {
  const std::string text =
      "format: ballchange project 1\nname: Harbour wrap\nunits: cm\n"
      "yarn: {name: Tally, ball: {mass: 50 g, length: 125 m}, repeat: [{colour: plum, length: 92}, {colour: rust, "
      "length: 80}]}\n"
      "piece: {worked: turned-rounds, stitches: 60, rows: 180, yarn_per_stitch: 1.85 cm, yarn_per_turn: 1.2 cm, "
      "foundation: 130 cm,\n        edging: 0 m, keep: from-the-start}\n"
      "join: {method: felted, allowance: 8 cm, tolerance: 2 st}\n"
      "log:\n"
      "  - {n: 1, at: 2026-03-02T19:20:00Z, did: ball, ball: A, mass: 50.2 g, dye_lot: \"17\", outside: \"plum 15, "
      "rust 30\", from: inside, wound: hand}\n"
      "  - {n: 2, at: 2026-03-02T20:20+01:00, did: join, ball: A, knot: true, method: woven, allowance: 25, trim_old: "
      "3 1/2in, trim_new: 1yd 6in, row: 12, stitch: 0, shift: -2 st, old: plum 3, new: rust 4}\n"
      "  - {n: 3, at: 2026-03-02T19:21:00Z, did: row, row: 12, seen: [row 12 stitch 4 rust begins, row 11 plum "
      "begins]}\n";
  const ProjectRead read = read_project(text, "p.yaml");
  CHECK(read.notes.empty());
  const Project& p = read.project;
  CHECK(p.name == "Harbour wrap");
  CHECK(p.units == Unit::cm);
  CHECK(p.yarn.ball_length == 12500_cm);
  CHECK(p.piece.working == Working::turned_rounds);
  CHECK(p.piece.stitches == 60);
  CHECK(p.piece.rows == 180);
  CHECK(p.piece.yarn_per_stitch == Amount{1.85, Unit::cm});
  CHECK(p.piece.yarn_per_turn == Amount{1.2, Unit::cm});
  CHECK(p.piece.foundation == Amount{130, Unit::cm});
  CHECK(p.piece.edging == Amount{0, Unit::m});
  CHECK(p.join.keep_from_the_start);
  CHECK(p.join.method == Method::felted);
  CHECK(p.join.allowance == Amount{8, Unit::cm});
  CHECK(p.join.tolerance == Amount{2, Unit::st});
  REQUIRE(p.entries.size() == 3);
  did::Ball ball;
  ball.ball = "A";
  ball.mass = Mass::g(50.2);
  ball.dye_lot = "17";
  ball.outside = "plum 15, rust 30";
  ball.from = BallEnd::inside;
  ball.wound = Winding::hand;
  CHECK(p.entries[0].what == Did(ball));
  CHECK(p.entries[0].at == p.entries[1].at);
  did::Join join;
  join.ball = "A";
  join.knot = true;
  join.method = Method::woven;
  join.allowance = {25, Unit::cm};
  join.trim_old = {3.5, Unit::in};
  join.trim_new = {42, Unit::in};
  join.row = 12;
  join.stitch = 0;
  join.shift = {-2, Unit::st};
  join.old_reading = "plum 3";
  join.new_reading = "rust 4";
  CHECK(p.entries[1].what == Did(join));
  CHECK(std::get<did::Row>(p.entries[2].what).seen ==
        std::vector<std::string>{"row 12 stitch 4 rust begins", "row 11 plum begins"});
}

TEST_CASE("a yarn is all a project needs, and a bare length is in its units") {
  const Project p = read_project(kHead + "log: []\n", "p.yaml").project;
  CHECK(p.name.empty());
  CHECK(p.units == Unit::cm);
  CHECK(p.piece.working == Working::rows);
  CHECK_FALSE(p.piece.stitches);
  CHECK_FALSE(p.join.method);
  CHECK_FALSE(p.join.keep_from_the_start);
  CHECK(p.entries.empty());
  const Project inches = read_project(kFormat + "units: in\n" + kYarn + "piece: {edging: 3}\nlog:\n", "p.yaml").project;
  CHECK(inches.piece.edging == Amount{3, Unit::in});
  CHECK(inches.yarn.repeat.total().cm() == doctest::Approx(172 * 2.54).epsilon(1e-12));
}

TEST_CASE("what is no project is refused with its line") {
  check({
      {"", "1:1: nothing in it; begin with 'format: ballchange project 1'"},
      {"[]\n", "1:1: the file is not a set of keys; write lines like 'format: ballchange project 1'"},
      {"format: ballchange yarn 1\n" + kYarn + "log: []\n",
       "1:9: format 'ballchange yarn 1' is not what is wanted here; write 'format: ballchange project 1'"},
      {"format: ballchange project 2\n" + kYarn + "log: []\n",
       "1:9: format 'ballchange project 2' is newer than this program, which reads project 1; use a newer ballchange"},
      {"format: ballchange project one\n" + kYarn + "log: []\n",
       "1:9: format 'ballchange project one' is not what is wanted here; write 'format: ballchange project 1'"},
      {kYarn + "log: []\n", "1:1: the file has no format; add one, like 'format: ballchange project 1'"},
      {kFormat + "log: []\n",
       "1:1: the file has no yarn; add one, like 'yarn: {name: Orchard, repeat: [{colour: plum, length: 92 cm}, "
       "...]}'"},
      {kHead, "1:1: the file has no log; add one, like 'log: []'"},
      {kHead + "log: {}\n", "3:6: log is not a list; write 'log: []', or an entry a line"},
      {kHead + "log: 12\n", "3:6: log is not a list; write 'log: []', or an entry a line"},
      {kHead + "log: []\npiece: {rows: 3}\n", "4:1: 'piece' stands after the log; move it above, the log comes last"},
      {kHead + "units: mm\nlog: []\n", "3:8: units: 'mm' is not known; write cm, in, st"},
      {kHead + "units: [cm]\nlog: []\n", "3:8: units is a single value; write it without brackets or further lines"},
      {kHead + "name: \"\"\nlog: []\n", "3:7: the project's name is empty; write one"},
      {kHead + "name: " + std::string(201, 'x') + "\nlog: []\n",
       "3:7: the project's name is longer than 200 bytes; shorten it"},
      {kHead + "name: \"a\\e[2Jb\"\nlog: []\n", "3:7: a control character in this text; remove it"},
      {kFormat + "yarn: orchard\nlog: []\n",
       "2:7: the yarn is not a set of keys; write its keys, beginning with 'name: Orchard'"},
      {kFormat + "yarn: {name: Tally, repeat: []}\nlog: []\n", "2:29: repeat has 0 sections; write 2 to 200"},
  });
}

TEST_CASE("what YAML allows and a project doesn't is refused with its line") {
  check(
      {
          {"name: a\nname: b\n", "4:1: 'name' stands here twice (first at 3:1); keep one"},
          {"name: &a b\n", "3:7: an anchor (&) is not understood here; write the text in quotes, or out in full"},
          {"name: *a\n", "3:7: an alias (*) is not understood here; write the text in quotes, or out in full"},
          {"name: !!str b\n", "3:7: a tag (!) is not understood here; write the text in quotes, or leave the tag out"},
          {"name: !b c\n", "3:7: a tag (!) is not understood here; write the text in quotes, or leave the tag out"},
          {"name: b\n---\nname: c\n", "4:1: a second document begins here; keep one, its keys all at the same indent"},
          {"name: b\n...\n", "5:1: a second document begins here; keep one, its keys all at the same indent"},
          {"piece: {foundation: 60,5 cm}\n", "3:21: a decimal comma in '60,5 cm'; write '60.5 cm'"},
          {"piece: {foundation: 60,5}\n", "3:21: a decimal comma in '60,5'; write '60.5'"},
          {"name: " + std::string(33, '[') + std::string(33, ']') + "\n",
           "3:38: nested more than 32 deep; use fewer levels"},
          {"name: {a: b\n", "3:7: this { is never closed, or a comma is missing in it; add the '}' or ','"},
          {"name: a: b\n", "3:8: a colon out of place; put a text that holds one in quotes, or check the indent"},
          {"name: 'a\n", "3:7: this quote is never closed; add the closing one"},
          {"\tname: a\n", "3:2: this line does not belong to the one above; check its indent and its colon"},
          {"name: \xff\n", "3:7: not UTF-8 text; save the file as UTF-8"},
          {std::string("name: a\0b\n", 10), "3:8: a NUL (U+0000), as in UTF-16; save the file as UTF-8"},
          {"? [a, b]\n: c\n", "3:3: a key must be plain text; put it in quotes"},
      },
      kHead, "log: []\n");
}

TEST_CASE("what a piece and a join are refused for") {
  check(
      {
          {"piece: 12\n", "3:8: piece is not a set of keys; write it like 'piece: {stitches: 60, rows: 180}'"},
          {"piece: {worked: row}\n",
           "3:17: worked: 'row' is not known; write rows, rounds, turned-rounds; did you mean rows?"},
          {"piece: {stitches: 0}\n", "3:19: stitches: '0' is not a count; write a whole number from 1 to 1000000"},
          {"piece: {stitches: 1000001}\n",
           "3:19: stitches: '1000001' is not a count; write a whole number from 1 to 1000000"},
          {"piece: {stitches: 60.5}\n",
           "3:19: stitches: '60.5' is not a count; write a whole number from 1 to 1000000"},
          {"piece: {stitches: }\n", "3:9: stitches has no value; write one after the colon"},
          {"piece: {stitches: [60]}\n", "3:19: stitches is a single value; write it without brackets or further lines"},
          {"piece: {rows: -3}\n", "3:15: rows: '-3' is not a count; write a whole number from 1 to 1000000"},
          {"piece: {yarn_per_stitch: 0 cm}\n",
           "3:26: yarn_per_stitch '0 cm' is out of reach; a stitch takes from 0.1 mm to 10 m"},
          {"piece: {yarn_per_stitch: 11 m}\n",
           "3:26: yarn_per_stitch '11 m' is out of reach; a stitch takes from 0.1 mm to 10 m"},
          {"piece: {yarn_per_stitch: 2 st}\n",
           "3:26: yarn_per_stitch is in stitches; write the yarn in one, like 1.85 cm"},
          {"piece: {yarn_per_turn: -1 cm}\n", "3:24: yarn_per_turn: '-1 cm' is below zero: leave out the minus"},
          {"piece: {foundation: 12 hands}\n", "3:21: foundation: no unit 'hands': write mm, cm, m, in, ft, yd or st"},
          {"piece: {edging: plenty}\n", "3:17: edging: 'plenty' is not a length, like 15 or 3 1/2in"},
          {"piece: {keep: always}\n", "3:15: keep: 'always' is not known; write each-join, from-the-start"},
          {"join: felted\n", "3:7: join is not a set of keys; write it like 'join: {method: felted, allowance: 8 cm}'"},
          {"join: {method: knot}\n",
           "3:16: method: 'knot' is not known; write felted, threaded, doubled, woven, knotted"},
          {"join: {allowance: 1e3 cm}\n",
           "3:19: allowance: '1e3 cm' has an exponent: write the number out, like 1500 or 0.1"},
          {"join: {tolerance: \"2,5 cm\"}\n", "3:19: tolerance: decimals take a point: write 2.5"},
      },
      kHead, "log: []\n");
}

TEST_CASE("what an entry is refused for") {
  const std::string log = kHead + "log:\n";
  check(
      {
          {"  - 12\n",
           "4:5: an entry of the log is not a set of keys; write it like '{n: 1, at: 2026-03-02T19:20:00Z, did: row, "
           "row: 12}'"},
          {"  - {}\n", "4:5: an entry has no n; add one, like 'n: 1'"},
          {"  - {n: 2, at: 2026-03-02T19:20:00Z, did: note, text: a}\n",
           "4:9: n is '2', but entries are numbered without gaps; write 1"},
          {"  - {n: one, at: 2026-03-02T19:20:00Z, did: note, text: a}\n",
           "4:9: n is 'one', but entries are numbered without gaps; write 1"},
          {"  - {n: 01, at: 2026-03-02T19:20:00Z, did: note, text: a}\n",
           "4:9: n is '01', but entries are numbered without gaps; write 1"},
          {"  - {n: 1, did: note, text: a}\n", "4:5: an entry has no at; add one, like 'at: 2026-03-02T19:20:00Z'"},
          {"  - {n: 1, at: yesterday, did: note, text: a}\n",
           "4:16: at: 'yesterday' is no date and time; write both, like 2026-03-02T19:20:00Z or "
           "2026-03-02T20:20+01:00"},
          {"  - {n: 1, at: 2026-03-02, did: note, text: a}\n",
           "4:16: at: '2026-03-02' is no date and time; write both, like 2026-03-02T19:20:00Z or "
           "2026-03-02T20:20+01:00"},
          {"  - {n: 1, at: 2026-03-02T19:20:00, did: note, text: a}\n",
           "4:16: at: '2026-03-02T19:20:00' has no time zone; add one, like 2026-03-02T19:20:00Z or "
           "2026-03-02T20:20+01:00"},
          {"  - {n: 1, at: 2026-02-29T19:20:00Z, did: note, text: a}\n",
           "4:16: at: '2026-02-29T19:20:00Z' is no day of the calendar; write one that is, like 2026-03-02T19:20:00Z "
           "or 2026-03-02T20:20+01:00"},
          {"  - {n: 1, at: 2026-03-02T24:00:00Z, did: note, text: a}\n",
           "4:16: at: '2026-03-02T24:00:00Z' is no time of day; write 00:00:00 to 23:59:59, like 2026-03-02T19:20:00Z "
           "or 2026-03-02T20:20+01:00"},
          {"  - {n: 1, at: 2026-03-02T19:20:00Z, text: a}\n", "4:5: an entry has no did; add one, like 'did: row'"},
          {"  - {n: 1, at: 2026-03-02T19:20:00Z, did: joined, ball: A}\n",
           "4:43: did: 'joined' is not known; write ball, begin, row, join, weigh, rip, cancel, gauge, swatch, note; "
           "did you mean join?"},
          {"  - {n: 1, at: 2026-03-02T19:20:00Z, did: dance}\n",
           "4:43: did: 'dance' is not known; write ball, begin, row, join, weigh, rip, cancel, gauge, swatch, note; "
           "did you mean cancel?"},
          {"  - {n: 1, n: 1, at: 2026-03-02T19:20:00Z, did: note, text: a}\n",
           "4:12: 'n' stands here twice (first at 4:6); keep one"},
          {"  - {n: 1, at: 2026-03-02T19:20:00Z, did: note, text: a}\n  - {n: 3, at: 2026-03-02T19:20:00Z, did: note, "
           "text: a}\n",
           "5:9: n is '3', but entries are numbered without gaps; write 2"},
          {"  - {n: 1, at: 2026-03-02T19:20:00Z, did: note, text: a}\n  - {n: 1, at: 2026-03-02T19:20:00Z, did: note, "
           "text: a}\n",
           "5:9: n is '1', but entries are numbered without gaps; write 2"},
      },
      log);
}

TEST_CASE("what a value of an entry is refused for") {
  check(
      {
          {"ball", "4:5: a ball entry has no ball; add one, like 'ball: A'"},
          {"ball, bal: A", "4:49: a ball entry has no ball; write 'ball' for 'bal'"},
          {"ball, ball: ", "4:49: ball has no value; write one after the colon"},
          {"ball, ball: \"\"", "4:55: ball is empty; write one"},
          {"ball, ball: [A]", "4:55: ball is a single value; write it without brackets or further lines"},
          {"ball, ball: " + std::string(201, 'A'), "4:55: ball is longer than 200 bytes; shorten it"},
          {"ball, ball: \"A\\u202eB\"", "4:55: ball holds a character that can't be seen (U+202E); remove it"},
          {"ball, ball: A, mass: -3 g", "4:64: mass: '-3 g' is below zero: leave out the minus"},
          {"ball, ball: A, mass: heavy", "4:64: mass: 'heavy' is not a mass, like 50 g"},
          {"ball, ball: A, mass: 50,2 g", "4:64: a decimal comma in '50,2 g'; write '50.2 g'"},
          {"ball, ball: A, outside: " + std::string(65'537, 'p'),
           "4:67: outside is longer than 65536 bytes; shorten it"},
          {"ball, ball: A, outside: plum 15, rust 30",
           "4:76: 'rust 30' has no value; if it goes on from the text before it, put the whole in quotes"},
          {"note, text: \"two\\nlines\"", "4:55: text has several lines; write it on one"},
          {"note, text: bought two, then one, from: here",
           "4:67: 'then one' has no value; if it goes on from the text before it, put the whole in quotes"},
          {"ball, ball: A, from: top", "4:64: from: 'top' is not known; write outside, inside"},
          {"ball, ball: A, wound: mil", "4:65: wound: 'mil' is not known; write mill, hand; did you mean mill?"},
          {"ball, ball: A, plain: maybe", "4:65: plain: 'maybe' is neither true nor false; write one of them"},
          {"ball, ball: A, length: 60,5 cm", "4:66: a decimal comma in '60,5 cm'; write '60.5 cm'"},
          {"begin, ball: A, trim_new: -1 cm", "4:69: trim_new: '-1 cm' is below zero: leave out the minus"},
          {"row, row: 0", "4:53: row: '0' is not a count; write a whole number from 1 to 1000000"},
          {"row, row: 1000001", "4:53: row: '1000001' is not a count; write a whole number from 1 to 1000000"},
          {"row, row: 3, stitch: -1", "4:64: stitch: '-1' is not a count; write a whole number from 0 to 1000000"},
          {"row, row: 3, seen: plum", "4:62: seen is not a list; write it like [row 120 stitch 14 navy begins]"},
          {"row, row: 3, seen: [[plum]]", "4:63: seen is a single value; write it without brackets or further lines"},
          {"row", "4:5: a row entry has no row; add one, like 'row: 12'"},
          {"join, ball: A, knot: 2", "4:64: knot: '2' is neither true nor false; write one of them"},
          {"join, ball: A, method: glued",
           "4:66: method: 'glued' is not known; write felted, threaded, doubled, woven, knotted"},
          {"join, ball: A, allowance: -8 cm", "4:69: allowance: '-8 cm' is below zero: leave out the minus"},
          {"join, ball: A, shift: --3 cm", "4:65: shift: '-3 cm' is below zero: leave out the minus"},
          {"join, ball: A, row: 0", "4:63: row: '0' is not a count; write a whole number from 1 to 1000000"},
          {"weigh, ball: A", "4:5: a weigh entry has no mass; add one, like 'mass: 50.2 g'"},
          {"weigh, mass: 3 g", "4:5: a weigh entry has no ball; add one, like 'ball: A'"},
          {"rip", "4:5: a rip entry has no row; add one, like 'row: 12'"},
          {"rip, row: -1", "4:53: row: '-1' is not a count; write a whole number from 0 to 1000000"},
          {"cancel, entry: 0", "4:58: entry: '0' is not a count; write a whole number from 1 to 1000000"},
          {"cancel", "4:5: a cancel entry has no entry; add one, like 'entry: 12'"},
          {"gauge, stitches_in_10cm: 0", "4:68: stitches_in_10cm: '0' is not a number above 0; write one, like 21.5"},
          {"gauge, rows_in_10cm: 21 cm", "4:64: rows_in_10cm: '21 cm' is not a number above 0; write one, like 21.5"},
          {"swatch, ball: A", "4:5: a swatch entry has no length; add one, like 'length: 60 cm'"},
          {"note", "4:5: a note entry has no text; add one, like 'text: A'"},
          {"note, text: " + std::string(2001, 'a'), "4:55: text is longer than 2000 bytes; shorten it"},
      },
      kEntry, "}\n");
}

TEST_CASE("what may stand in an entry") {
  CHECK(std::get<did::Rip>(project_with("rip, row: 0").entries[0].what).row == 0);
  CHECK(std::get<did::Row>(project_with("row, row: 1000000, stitch: 0").entries[0].what).row == 1'000'000);
  CHECK(std::get<did::Join>(project_with("join, ball: A, shift: +3 cm").entries[0].what).shift == Amount{3, Unit::cm});
  CHECK(std::get<did::Ball>(project_with("ball, ball: \"null\"").entries[0].what).ball == "null");
  CHECK(std::get<did::Ball>(project_with("ball, ball: 017").entries[0].what).ball == "017");
  CHECK(std::get<did::Gauge>(project_with("gauge, rows_in_10cm: 21 1/2").entries[0].what).rows_in_10cm == 21.5);
  const std::string block =
      "log:\n- n: 1\n  at: 2026-03-02T19:20:00Z   # by hand\n  did: row\n  row: 12\n-   n: 2\n    at: "
      "2026-03-02T19:20:00Z\n    did: note\n    text: >-\n      two\n      lines\n";
  const Project p = read_project(kHead + block, "p.yaml").project;
  REQUIRE(p.entries.size() == 2);
  CHECK(std::get<did::Note>(p.entries[1].what).text == "two lines");
}

TEST_CASE("keys that are not known are told once and do nothing") {
  const auto notes = [](const std::string& text) { return read_project(text, "p.yaml").notes; };
  CHECK(notes(kHead + "needle: 4 mm\npiece: {stiches: 60}\njoin: {glue: no}\nlog: []\n") ==
        std::vector<std::string>{"p.yaml:4:9: 'stiches' is not known here and does nothing; did you mean stitches?",
                                 "p.yaml:5:8: 'glue' is not known here and does nothing",
                                 "p.yaml:3:1: 'needle' is not known here and does nothing"});
  // However often it stands in the log.
  std::string log = kHead + "log:\n";
  for (int n = 1; n <= 3; ++n) {
    log += "- {n: " + std::to_string(n) + ", at: 2026-03-02T19:20:00Z, did: row, row: " + std::to_string(n) +
           ", mood: good, stich: 3}\n";
  }
  CHECK(notes(log) ==
        std::vector<std::string>{"p.yaml:4:54: 'mood' is not known here and does nothing",
                                 "p.yaml:4:66: 'stich' is not known here and does nothing; did you mean stitch?"});
  // A key of another kind of entry is as unknown.
  CHECK(notes(kEntry + "note, text: a, row: 3}\n").size() == 1);
  std::string many = kEntry + "note, text: a";
  for (int i = 0; i < 1000; ++i) many += ", k" + std::to_string(i) + ": 1";
  CHECK(notes(many + "}\n").size() == 20);
}

TEST_CASE("entries that don't fit are told with their line, the first ten of them") {
  std::string text = kHead + "log:\n";
  for (int n = 1; n <= 12; ++n) {
    text += "- {n: " + std::to_string(n) + ", at: 2026-03-02T19:20:00Z, did: weigh, ball: A, mass: 3 g}\n";
  }
  const Tree tree(text, "p.yaml");
  const std::vector<std::string> notes = trouble_notes(tree, fold(read_project(tree).project).troubles);
  REQUIRE(notes.size() == 11);
  CHECK(notes[1] == "p.yaml:5:3: entry 2, which does nothing: ball A was never added; add it with ball first");
  CHECK(notes[10] == "2 more entries don't fit");
}
