#include <doctest/doctest.h>

#include "session.hpp"
#include "wrap.hpp"

// What `order` and `estimate` take from a project and what from their options: the same as `check` does.
namespace ballchange {
namespace {

struct Wrap : Session {
  explicit Wrap(const std::vector<std::string>& entries = wrap_entries(), const Project& project = wrap_project()) {
    disk.files["wrap.yaml"] = wrap_file(entries, project);
    environment["COLUMNS"] = "100";
  }
  Ran ask(std::string command, const std::vector<std::string>& more) {
    std::vector<std::string> arguments{std::move(command), "wrap.yaml", "--format", "json"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run(arguments);
  }
};

bool says(const Ran& ran, std::string_view text) { return ran.out.find(text) != std::string::npos; }

std::size_t times(std::string_view whole, std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = whole.find(text); at != std::string::npos; at = whole.find(text, at + 1)) ++count;
  return count;
}

// The balls that were never read would be asked about.
std::vector<std::string> all_read(const char* more = nullptr) {
  std::vector<std::string> entries = wrap_entries();
  entries[0] = "ball, ball: A, inside: \"rust 30, sand 11, plum\"";
  entries[4] = more == nullptr ? "note, text: no fifth ball" : more;
  return entries;
}

TEST_CASE("the project's allowance holds for its own method, told or not, and for no other") {
  Project project = wrap_project();
  project.join.allowance = Amount{6, Unit::cm};
  struct Row {
    std::vector<std::string> options;
    const char* says;      // of one join
    const char* of_three;  // which is how order tells it
  };
  const std::vector<Row> rows{
      {{}, R"("method":"felted","allowance":6.0)", R"("allowance":18.0)"},
      {{"--method", "felted"}, R"("method":"felted","allowance":6.0)", R"("allowance":18.0)"},
      {{"--method", "threaded"}, R"("method":"threaded","allowance":10.0)", R"("allowance":30.0)"}};
  for (const Row& row : rows) {
    CAPTURE(row.says);
    std::vector<std::string> options = row.options;
    CHECK(says(Wrap(all_read(), project).ask("estimate", options), row.says));
    CHECK(says(Wrap(all_read(), project).ask("order", options), row.of_three));
    options.insert(options.end(), {"--old", kWrapOld});
    CHECK(says(Wrap(all_read(), project).ask("check", options), row.says));
  }
}

TEST_CASE("--yarn-per-stitch goes before the project's gauge: the usual tolerance is two such stitches") {
  for (const char* command : {"check", "order", "estimate"}) {
    CAPTURE(command);
    std::vector<std::string> options{"--yarn-per-stitch", "3"};
    if (std::string_view(command) == "check") options.insert(options.end(), {"--old", kWrapOld});
    const Ran ran = Wrap(all_read()).ask(command, options);
    CAPTURE(ran.out);
    CHECK(says(ran, R"("tolerance":6.0)"));
  }
}

// Whether 25 cm of sand is the short one or the long one read from the other end, only the winding tells.
TEST_CASE("how the balls were wound, told with --wound, goes before what is on record") {
  const auto order = [](const std::string& wound, const std::vector<std::string>& options) {
    Session session;
    session.disk.files["wrap.yaml"] = R"(format: ballchange project 1
yarn:
  name: Shore
  repeat:
    - {colour: plum, length: 60 cm, plus_minus: 4 cm}
    - {colour: sand, length: 20 cm, plus_minus: 6 cm}
    - {colour: rust, length: 60 cm, plus_minus: 4 cm}
    - {colour: sand, length: 32 cm, plus_minus: 6 cm}
log:
  - {n: 1, at: 2026-03-01T19:01:00Z, did: ball, ball: A, outside: "plum 10, sand 25, rust 30", wound: )" +
                                      wound + "}\n";
    std::vector<std::string> arguments{"order", "wrap.yaml"};
    arguments.insert(arguments.end(), options.begin(), options.end());
    return session.run(arguments).code;
  };
  CHECK(order("mill", {}) == Exit::done);
  CHECK(order("hand", {}) == Exit::settles_nothing);
  CHECK(order("mill", {"--wound", "hand"}) == Exit::settles_nothing);
  CHECK(order("hand", {"--wound", "mill"}) == Exit::done);
}

TEST_CASE("a reading on record that is none counts as not read, and that is told once") {
  const char* edited = "ball, ball: E, outside: \"plum fifteen\"";
  const Ran check = Wrap(all_read(edited)).ask("check", {"--old", kWrapOld});
  CHECK(check.code == Exit::done);
  CHECK(times(check.complaints, "ball E, outside end") == 1);
  const Ran order = Wrap(all_read(edited)).ask("order", {});
  CHECK(order.code == Exit::settles_nothing);
  CHECK(says(order, R"("ball":"E")"));
  CHECK(times(order.complaints, "ball E, outside end") == 1);
  const Ran estimate = Wrap(all_read(edited)).ask("estimate", {});
  CHECK(estimate.code == Exit::done);
  CHECK(times(estimate.complaints, "ball E, outside end") == 1);
}

TEST_CASE("the readings of a log are in the project's unit, whatever answers are told in") {
  for (const char* command : {"order", "estimate"}) {
    CAPTURE(command);
    CHECK(Wrap(all_read()).ask(command, {}).out == Wrap(all_read()).ask(command, {"--units", "in"}).out);
  }
}

// Four balls read at both ends; then A is begun, and B joined to it with an end that was cut.
TEST_CASE("an estimate of the whole work is the same before it is begun and in the middle of it") {
  const std::vector<std::string> fresh{
      "ball, ball: A, outside: \"plum 15, sand 11, rust 30\", inside: \"plum 40, grey 9, navy 30\"",
      "ball, ball: B, outside: \"rust 30, moss 14, navy 30\", inside: \"sand 5, plum 92, grey\"",
      "ball, ball: C, outside: \"navy 50, grey 9, plum 30\", inside: \"rust 20, sand 11, plum\"",
      "ball, ball: D, outside: \"navy 30, grey 9, plum 30\", inside: \"rust 50, sand 11, plum\""};
  std::string before = Wrap(fresh).ask("estimate", {}).out;
  CHECK(before.find("whole_work") == std::string::npos);
  const std::string unit = ",\"unit\"";
  before.replace(before.find(unit), unit.size(), ",\"whole_work\":true" + unit);
  std::vector<std::string> begun = fresh;
  for (const char* entry : {"begin, ball: A", "row, row: 50", "join, ball: B, trim_old: 10, trim_new: 20, row: 100",
                            "row, row: 120", "ball, ball: B, outside: \"plum 3, sand 11, rust 30\""}) {
    begun.emplace_back(entry);
    CAPTURE(entry);
    CHECK(Wrap(begun).ask("estimate", {}).out == before);
  }
}

// 180 rows of 112.2 cm are 202 m.
TEST_CASE("order tells what the rows still need where fewer balls may hold it, until that is told") {
  const std::vector<std::string> two{"ball, ball: A, outside: \"plum 15, sand 11, rust 30\"",
                                     "ball, ball: B, outside: \"rust 30, moss 14, navy 30\""};
  CHECK(!says(Wrap(two).ask("order", {}), "rows_need"));
  std::vector<std::string> three = two;
  three.emplace_back("ball, ball: C, outside: \"navy 50, grey 9, plum 30\"");
  CHECK(says(Wrap(three).ask("order", {}), R"("rows_need":20196.0)"));
  CHECK(!says(Wrap(three).ask("order", {"--need", "202m"}), "rows_need"));
  // 80 rows are 89.76 m: less than one ball.
  three.insert(three.end(), {"begin, ball: A", "row, row: 100"});
  CHECK(says(Wrap(three).ask("order", {}), R"("rows_need":8976.0)"));
}

}  // namespace
}  // namespace ballchange
