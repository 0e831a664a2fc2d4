#include <doctest/doctest.h>

#include <sstream>

#include "files/project.hpp"
#include "project/project.hpp"
#include "project/record.hpp"
#include "session.hpp"

// Recording as every command does it: what is read, checked, locked and written.

namespace ballchange {
namespace {

struct Desk {
  FakeDisk disk;
  FakeWatch watch;
  FixedClock clock{1'772'479'200};
  std::ostringstream out;
  std::istringstream in;
  std::string complaints;
  Context context{out,
                  in,
                  disk,
                  clock,
                  watch,
                  [](const std::string&) { return std::string(); },
                  [this](std::string_view text) { complaints += std::string(text) + "\n"; }};

  Desk() {
    Project project{.name = {}, .units = Unit::cm, .yarn = orchard(), .piece = {}, .join = {}, .entries = {}};
    project.piece.stitches = 60;
    project.piece.yarn_per_stitch = Amount{1.85, Unit::cm};
    disk.files["wrap.yaml"] = write_project(project);
  }
  std::string& wrap() { return disk.files["wrap.yaml"]; }
  Recorded add(const Did& did, const Options& options = {}) {
    return record("wrap.yaml", options, context, [&](const Project&, const State&) { return std::vector{did}; });
  }
};

Options with(const std::string& name, std::vector<std::string> values = {}) {
  Options options;
  options.add(name, std::move(values));
  return options;
}

TEST_CASE("an entry is numbered, timed and written last, and the answer knows what it makes") {
  Desk desk;
  const std::string before = desk.wrap();
  const Recorded recorded = desk.add(did::Row{40, 12, {}});
  const std::string head = before.substr(0, before.find("log: []"));
  CHECK(desk.wrap() == head + "log:\n  - {n: 1, at: 2026-03-02T19:20:00Z, did: row, row: 40, stitch: 12}\n");
  CHECK(recorded.entries().size() == 1);
  CHECK(recorded.after.used->cm() == doctest::Approx((39 * 60 + 12) * 1.85).epsilon(1e-9));
  CHECK_FALSE(recorded.before.at);
}

TEST_CASE("the time told is the entry's, in UTC") {
  Desk desk;
  static_cast<void>(desk.add(did::Note{"tight", {}, {}}, with("at", {"2026-03-02T20:20+01:00"})));
  CHECK(desk.wrap().ends_with("  - {n: 1, at: 2026-03-02T19:20:00Z, did: note, text: tight}\n"));
}

TEST_CASE("a dry run checks all, and neither locks nor writes") {
  Desk desk;
  const std::string before = desk.wrap();
  desk.disk.taken = [] { return true; };
  const Recorded recorded = desk.add(did::Row{40, 12, {}}, with("dry-run"));
  CHECK_FALSE(recorded.written);
  CHECK(recorded.after.at == WorkPlace{40, 12});
  CHECK(desk.wrap() == before);
  CHECK_THROWS_WITH_AS(static_cast<void>(desk.add(did::Row{40, 61, {}}, with("dry-run"))),
                       "wrap.yaml: stitch 61 of a row of 60; write 0 to 60", Problem);
}

TEST_CASE("what was recorded since the project was opened counts") {
  Desk desk;
  const OpenProject open = open_project("wrap.yaml", desk.context);
  static_cast<void>(desk.add(did::Row{40, 12, {}}));
  const std::string before = desk.wrap();
  const MakeDids earlier = [](const Project&, const State&) { return std::vector<Did>{did::Row{30, {}, {}}}; };
  CHECK_THROWS_AS(static_cast<void>(record(open, {}, desk.context, earlier)), Problem);
  CHECK(desk.wrap() == before);
  const MakeDids later = [](const Project& project, const State& state) {
    CHECK(project.entries.size() == 1);
    return std::vector<Did>{did::Row{state.at->row + 1, {}, {}}};
  };
  CHECK(record(open, {}, desk.context, later).entries().front().n == 2);
}

TEST_CASE("waiting for another is told after a second, and given up after thirty") {
  Desk desk;
  int tries = 0;
  desk.disk.taken = [&tries] { return ++tries < 400; };
  static_cast<void>(desk.add(did::Row{40, 12, {}}));
  CHECK(desk.complaints == "waiting for another program to be done with wrap.yaml\n");
  desk.disk.taken = [] { return true; };
  const std::string before = desk.wrap();
  try {
    static_cast<void>(desk.add(did::Row{41, 12, {}}));
    FAIL("recorded without the lock");
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::file);
  }
  CHECK(desk.wrap() == before);
}

TEST_CASE("recorded, but not confirmed by the disk, is recorded") {
  Desk desk;
  desk.disk.before = [](std::string_view step) {
    if (step == "sync_folder") throw std::system_error(EIO, std::generic_category());
  };
  static_cast<void>(desk.add(did::Row{40, 12, {}}));
  CHECK(desk.complaints.starts_with("recorded, but the disk did not confirm it"));
  CHECK(desk.wrap().ends_with("row: 40, stitch: 12}\n"));
}

TEST_CASE("the only project of a folder need not be named") {
  Desk desk;
  desk.disk.files["orchard.yaml"] = write_profile(orchard());
  desk.disk.files["notes.txt"] = "format: ballchange project 1\n";
  desk.disk.files["old.yaml"] = "name: something else\n";
  CHECK(project_path(std::nullopt, desk.context) == "wrap.yaml");
  CHECK(project_path("wrap", desk.context) == "wrap.yaml");
  desk.disk.files["scarf.yml"] = "\xEF\xBB\xBF# mine\r\nformat: \"ballchange project 1\"\r\n";
  CHECK_THROWS_WITH_AS(
      static_cast<void>(project_path(std::nullopt, desk.context)),
      "several projects in this folder: scarf.yml, wrap.yaml; name the one meant right after the command, as scarf.yml",
      Problem);
  CHECK_THROWS_WITH_AS(static_cast<void>(project_path("wrop.yaml", desk.context)),
                       "no project file wrop.yaml; did you mean wrap.yaml?", Problem);
  CHECK_THROWS_WITH_AS(static_cast<void>(project_path("A", desk.context)),
                       "'A' is no project file and belongs to no option: options begin with --, and a text of several "
                       "words is quoted as one",
                       Problem);
}

TEST_CASE("opening complains once of keys that are not known, and of entries that don't fit") {
  Desk desk;
  const std::string at = "at: 2026-03-02T19:20:00Z";
  desk.wrap().replace(desk.wrap().find("log: []"), 7,
                      "log:\n  - {n: 1, " + at + ", did: row, row: 9, mood: good}\n  - {n: 2, " + at +
                          ", did: row, row: 3, mood: bad}");
  const OpenProject open = open_project("wrap.yaml", desk.context);
  CHECK(desk.complaints.find("mood") == desk.complaints.rfind("'mood'") + 1);
  CHECK(desk.complaints.find("entry 2, which does nothing: row 3, stitch 60 lies before") != std::string::npos);
  CHECK(open.state.at->row == 9);
}

}  // namespace
}  // namespace ballchange
