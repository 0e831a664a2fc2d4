#include "show/log.hpp"

#include <doctest/doctest.h>

#include "ledger/fold.hpp"
#include "wrap.hpp"

namespace ballchange {
namespace {

TEST_CASE("a cell is quoted as RFC 4180 has it, and never a formula") {
  struct Case {
    const char *text, *cell;
  };
  // RFC 4180 section 2, rules 5 to 7; the first characters a spreadsheet takes for a formula: OWASP, "CSV Injection".
  for (const Case& c : {Case{"", ""},
                        {"plum", "plum"},
                        {"plum 15, sand 11", "\"plum 15, sand 11\""},
                        {"\"really\"", "\"\"\"really\"\"\""},
                        {"two\r\nlines", "\"two\r\nlines\""},
                        {"=1+2", "'=1+2"},
                        {"+cmd", "'+cmd"},
                        {"-cmd, all", "\"'-cmd, all\""},
                        {"@SUM(A1)", "'@SUM(A1)"},
                        {"\tx", "'\tx"},
                        {"\rx", "\"'\rx\""},
                        {"-3.5", "-3.5"},
                        {"+12", "+12"},
                        {"-3.5 cm", "'-3.5 cm"},
                        {"-", "'-"},
                        {"-1e999", "'-1e999"},
                        {"1=1", "1=1"}}) {
    CAPTURE(c.text);
    CHECK(csv_text(c.text) == c.cell);
  }
}

// Entries of a wrap with a join, a swatch, a cancelled note and one that doesn't fit.
struct Logged {
  Project project =
      read_project(wrap_file({"ball, ball: A, dye_lot: \"=17\"", "ball, ball: B", "begin, ball: A",
                              "swatch, ball: B, length: 1 m", "note, text: \"counted, twice\"", "cancel, entry: 5",
                              "join, ball: B, trim_new: 48 cm, shift: -0.5 cm, row: 10, stitch: 30",
                              "weigh, ball: Q, mass: 3 g"}),
                   "wrap.yaml")
          .project;
  State state = fold(project);
  [[nodiscard]] LogShown shown() const {
    LogShown all{project, state, {}};
    for (std::size_t i = 0; i < project.entries.size(); ++i) all.entries.push_back(i);
    return all;
  }
};

TEST_CASE("the table has a line of names, CRLF after each line and one column for every key") {
  const std::string csv = log_csv(Logged().shown());
  CHECK(
      csv.starts_with("n,at,did,cancelled,ball,mass,dye_lot,outside,inside,from,wound,plain,length,offcut,cut_from,"
                      "scale,trim_new,row,"));
  CHECK(csv.find("\r\n1,2026-03-01T19:01:00Z,ball,,A,,'=17,,,,,,,,") != std::string::npos);
  CHECK(csv.find("\r\n5,2026-03-01T19:05:00Z,note,yes,") != std::string::npos);
  CHECK(csv.find(",\"counted, twice\"") != std::string::npos);
  CHECK(csv.find(",48,10,30,") != std::string::npos);
  CHECK(csv.find(",-0.5,") != std::string::npos);
  CHECK(csv.ends_with("\r\n"));
}

TEST_CASE("the table says last what became of each join, and nothing of other entries") {
  Logged logged;
  const auto last_cells = [&] {
    std::string cells;
    const std::string csv = log_csv(logged.shown());
    for (std::size_t end = csv.find("\r\n"); end != std::string::npos; end = csv.find("\r\n", end + 2)) {
      cells += csv.substr(csv.rfind(',', end) + 1, end - csv.rfind(',', end) - 1) + "|";
    }
    return cells;
  };
  CHECK(last_cells() == "held|||||||in-work||");
  logged.state.joins.front().held = JoinHeld::cut_out;
  CHECK(last_cells() == "held|||||||cut-out||");
}

TEST_CASE("the screen tells entries, what was cut away and why, each ball, and where the work stands") {
  // W = 60 x 1.85 + 1.2 = 112.2; row 10, stitch 30: 9 W + 30 x 1.85 = 1065.3 cm of yarn. The join takes 8 cm, 4 of each
  // ball: left of B 12500 - 100 - 48 - 8 / 2 - 8 / 2.
  const std::string text = log_screen(Logged().shown(), {100, Depth::none, true}, Told::centimetres);
  CHECK(text ==
        "1 2026-03-01  ball A, dye lot =17\n"
        "2 2026-03-01  ball B\n"
        "3 2026-03-01  work begun with ball A\n"
        "4 2026-03-01  swatch of 1 m from ball B\n"
        "5 2026-03-01  (cancelled) counted, twice\n"
        "6 2026-03-01  entry 5 cancelled\n"
        "7 2026-03-01  joined to ball B, 48 cm off the new end, colours repeat 0.5 cm, at row 10, stitch 30\n"
        "8 2026-03-01  (doesn't count) ball Q weighs 3 g\n"
        "\n"
        "Joins     1.\n"
        "Cut away  1.56 m of 250 m bought, under 1 %, about 0.6 g. 48 cm cut off to keep in step, 8 cm in the\n"
        "          joins and 1 m in swatches.\n"
        "Shift     0.5 cm repeated, all joins together.\n"
        "Balls     A: used up, dye lot =17.\n"
        "          B: in the work, 123.48 m left.\n"
        "Work      stands at row 10, stitch 30, with 10.65 m of yarn in it.\n"
        "Yarn      123.48 m left on ball B, about 110 rows. Not enough yet for the rows planned: 67.81 m\n"
        "          short, about 61 rows or 1 ball.\n");
}

std::string screen_of(const std::vector<std::string>& entries, std::size_t from = 0) {
  const Project project = read_project(wrap_file(entries), "wrap.yaml").project;
  const State state = fold(project);
  LogShown shown{project, state, {}};
  for (std::size_t i = from; i < project.entries.size(); ++i) shown.entries.push_back(i);
  return log_screen(shown, {200, Depth::none, true}, Told::centimetres);
}

bool has(const std::string& text, std::string_view part) {
  CAPTURE(text);
  return text.find(part) != std::string::npos;
}

TEST_CASE("a join that no longer holds is marked as such") {
  const std::vector<std::string> woven{"ball, ball: A", "ball, ball: B", "row, row: 40", "join, ball: B, method: woven",
                                       "rip, row: 30"};
  CHECK(has(screen_of(woven), "4 2026-03-01  (came apart) joined to ball B"));
  std::vector<std::string> felted{"ball, ball: A", "ball, ball: B", "row, row: 40", "join, ball: B", "rip, row: 30"};
  CHECK(has(screen_of(felted), "4 2026-03-01  joined to ball B"));
  felted.emplace_back("join, ball: B");
  CHECK(has(screen_of(felted), "4 2026-03-01  (cut out) joined to ball B"));
}

TEST_CASE("JSON tells of every join what became of it") {
  const auto held = [](std::vector<std::string> entries) {
    entries.insert(entries.begin(), {"ball, ball: A", "ball, ball: B", "row, row: 40"});
    const Project project = read_project(wrap_file(entries), "wrap.yaml").project;
    const State state = fold(project);
    const std::string json = log_json({project, state, {3}});
    const std::size_t at = json.find(R"("held":)");
    return json.substr(at, json.find('}', at) - at);
  };
  const std::string woven = "join, ball: B, method: woven";
  CHECK(held({woven}) == R"("held":"in-work")");
  CHECK(held({woven, "rip, row: 30"}) == R"("held":"apart")");
  CHECK(held({"join, ball: B", "rip, row: 30"}) == R"("held":"ahead")");
  CHECK(held({"join, ball: B", "rip, row: 30", "join, ball: B"}) == R"("held":"cut-out")");
  CHECK(held({woven, "cancel, entry: 4"}) == R"("held":null)");
}

TEST_CASE("where a join is ahead of the hook, the work is counted up to it, until it is told to have got there") {
  std::vector<std::string> entries{"ball, ball: A", "ball, ball: B", "row, row: 5",
                                   "join, ball: B, row: 10, stitch: 30"};
  CHECK(has(screen_of(entries), "Work      counted up to the join at row 10, stitch 30: 10.65 m of yarn in it.\n"));
  entries.emplace_back("row, row: 10, stitch: 30");
  CHECK(has(screen_of(entries), "Work      stands at row 10, stitch 30, with 10.65 m of yarn in it.\n"));
}

TEST_CASE("totals below some of the entries are told to be of all") {
  const std::vector<std::string> entries{"ball, ball: A", "row, row: 5", "row, row: 6"};
  CHECK(has(screen_of(entries, 1), "\n\nSince the beginning:\nJoins     0.\n"));
  CHECK_FALSE(has(screen_of(entries), "Since"));
}

TEST_CASE("only balls that hold yarn are counted among those it is on") {
  std::vector<std::string> entries{"ball, ball: A", "ball, ball: B", "ball, ball: C", "row, row: 110"};
  CHECK(has(screen_of(entries), "; 251.59 m on all 3 balls"));  // 37500 - 109 x 112.2 - 111
  entries.emplace_back("join, ball: B");
  CHECK(has(screen_of(entries), " left on ball B, about 111 rows; 249.96 m on 2 balls"));
  entries.insert(entries.end(), {"row, row: 220", "join, ball: C"});
  CHECK(has(screen_of(entries), "Yarn      124.96 m left on ball C, about 111 rows. "));
  // Used up by the record, a row early: what is left is on the other one.
  CHECK(has(screen_of({"ball, ball: A", "ball, ball: B", "row, row: 112"}),
            "Yarn      ball A should be about used up; 125 m on ball B, about 111 rows."));
}

TEST_CASE("what was worked out is told as a tape and a scale hold it, what was typed as it was") {
  const std::string text =
      screen_of({"ball, ball: A, mass: 51.0291 g", "ball, ball: B, mass: 50.25 g", "begin, ball: A",
                 "join, ball: B, trim_old: 107.7165 in, trim_new: 12.125 in, shift: 0.8332 cm",
                 "gauge, yarn_per_stitch: 1.8776 cm"});
  CHECK(has(text, "ball A, 51 g\n"));
  CHECK(has(text, "ball B, 50.25 g\n"));
  CHECK(has(text, "107 3/4 in off the old end, 12.125 in off the new end, colours skip 1 cm\n"));
  CHECK(has(text, "1.8776 cm of yarn a stitch\n"));
}

TEST_CASE("yarn left off before the first stitch is no step kept, and a few centimetres of it weigh little") {
  // 9 of 12500 cm, 50 g: 0.036 g; and the join's 8 cm with it 0.068.
  const std::vector<std::string> begun{"ball, ball: A", "begin, ball: A, trim_new: 9 cm"};
  CHECK(has(screen_of(begun),
            "Cut away  9 cm of 125 m bought, under 1 %, less than 0.1 g, left off before the first stitch.\n"));
  std::vector<std::string> joined = begun;
  joined.insert(joined.end(), {"ball, ball: B", "row, row: 40", "join, ball: B, trim_new: 30 cm"});
  const std::string text = screen_of(joined);
  CHECK(has(text, " 9 cm left off before the first stitch, 30 cm cut off to keep in"));
  CHECK(has(text, " 8 cm in the joins.\n"));
}

TEST_CASE("of one ball only what became of it is told") {
  const Logged logged;
  LogShown shown{logged.project, logged.state, {1, 6}, &logged.state.balls[1]};
  CHECK(log_screen(shown, {200, Depth::none, true}, Told::centimetres) ==
        "2 2026-03-01  ball B\n"
        "7 2026-03-01  joined to ball B, 48 cm off the new end, colours repeat 0.5 cm, at row 10, stitch 30\n"
        "\n"
        "Ball      B: in the work, 123.48 m left.\n");
  shown.entries.clear();
  CHECK(log_screen(shown, {200, Depth::none, true}, Told::centimetres).starts_with("No entries.\n"));
}

TEST_CASE("knots that were left are no joins") {
  const auto joins_of = [](std::vector<std::string> entries) {
    entries.insert(entries.begin(), {"ball, ball: A", "ball, ball: B", "row, row: 3"});
    const Project project = read_project(wrap_file(entries), "wrap.yaml").project;
    const State state = fold(project);
    const std::string text = log_screen({project, state, {0}}, {200, Depth::none, true}, Told::centimetres);
    const std::size_t at = text.find("Joins");
    return text.substr(at, text.find('\n', at) - at);
  };
  const std::string knot = "join, ball: A, knot: true, row: 4";
  CHECK(joins_of({}) == "Joins     0.");
  CHECK(joins_of({knot}) == "Joins     0; 1 knot left as it is.");
  CHECK(joins_of({knot, "join, ball: A, knot: true, row: 5"}) == "Joins     0; 2 knots left as they are.");
  CHECK(joins_of({"join, ball: A, knot: true, row: 4, trim_new: 3 cm", knot}) == "Joins     1; 1 knot left as it is.");
  // Ravelled past, the join lands again; the knot has not been met yet.
  CHECK(joins_of({knot, "join, ball: B, row: 9", "rip, row: 2"}) ==
        "Joins     1, 1 of them ahead of the work; 1 knot left as it is.");
}

TEST_CASE("a shift that no entry tells is not known") {
  const Project project =
      read_project(wrap_file({"ball, ball: A", "ball, ball: B", "join, ball: B, row: 3, stitch: 0"}), "wrap.yaml")
          .project;
  const State state = fold(project);
  CHECK(log_screen({project, state, {0}}, {200, Depth::none, true}, Told::centimetres)
            .find("Shift     not known: entry 3 doesn't tell its own.\n") != std::string::npos);
}

TEST_CASE("JSON holds entries, totals, balls, where the work stands and what is left") {
  const Logged logged;
  const std::string json = log_json({logged.project, logged.state, {4, 6, 7}});
  CHECK(
      json ==
      R"({"format":"ballchange log 1","name":"","entries":[)"
      R"({"n":5,"at":"2026-03-01T19:05:00Z","did":"note","text":"counted, twice","cancelled":true,"skipped":false},)"
      R"({"n":7,"at":"2026-03-01T19:07:00Z","did":"join","ball":"B","trim_new":48.0,"row":10,"stitch":30,"shift":-0.5,)"
      R"("cancelled":false,"skipped":false,"held":"in-work"},)"
      R"({"n":8,"at":"2026-03-01T19:08:00Z","did":"weigh","ball":"Q","mass":3.0,"cancelled":false,"skipped":true}],)"
      R"("totals":{"joins":1,"knots_left":0,"discard":48.0,"allowance":8.0,"waste":156.0,"waste_mass":0.624,"waste_share":0.0062,)"
      R"("running_shift":-0.5,"by_cause":{"begin":0.0,"step":48.0,"allowance":8.0,"knots":0.0,"swatches":100.0}},)"
      R"("balls":[{"ball":"A","use":"used-up","plain":false,"mass":null,"dye_lot":"=17","from":"outside",)"
      R"("outside":null,"inside":null,"length":12500.0,"left":0.0,"offcut":null},)"
      R"({"ball":"B","use":"working","plain":false,"mass":null,"dye_lot":null,"from":"outside","outside":null,)"
      R"("inside":null,"length":12500.0,"left":12348.0,"offcut":null}],)"
      R"("at":{"row":10,"stitch":30},"left":{"length":12348.0,"rows":110,"enough":false,"chance":null},"unit":"cm"})"
      "\n");
}

}  // namespace
}  // namespace ballchange
