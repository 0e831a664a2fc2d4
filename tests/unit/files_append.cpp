// Long: every fault at every step, and what each leaves behind, by one fake disk.
#include <doctest/doctest.h>

#include <cerrno>
#include <functional>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "files/append.hpp"
#include "unit/files_fake_disk.hpp"

using namespace ballchange;

namespace {

// The process is gone: nothing catches this.
struct Died {};

struct FakeStopwatch : Stopwatch {
  double at = 0;
  [[nodiscard]] double seconds() const override { return at; }
  void pause(double seconds) override { at += seconds; }
};

const std::string kPath = "home/wrap.yaml";
const std::string kOld = "name: Wrap # mine\nlog:\n  - {n: 1, did: note}\n";
const std::string kEntry = "{n: 2, did: row, row: 7}";
const std::string kNew = kOld + "  - " + kEntry + "\n";
const std::string kEditors = "name: Wrap, renamed in an editor\nlog:\n  - {n: 1, did: note}\n";

FakeDisk disk_with(const std::string& text) {
  FakeDisk disk;
  disk.files[kPath] = text;
  return disk;
}

struct Outcome {
  std::string said;  // "done", or the Problem
  Remarks remarks;
  std::optional<Fault> fault = std::nullopt;
};

Outcome record(FakeDisk& disk, const std::string& path = kPath, const std::string& entry = kEntry) {
  FakeStopwatch watch;
  try {
    const Appended done = append(disk, path, {watch, {}},
                                 [&](const std::string&, const Tree&) { return std::vector<std::string>{entry}; });
    return {"done", done.remarks};
  } catch (const Problem& problem) {
    return {problem.what(), {}, problem.fault()};
  }
}

std::vector<std::string> others(const FakeDisk& disk) {
  std::vector<std::string> found;
  for (const auto& [path, text] : disk.files) {
    if (path != kPath) found.push_back(text);
  }
  return found;
}

// What the only other file is called.
std::string beside_it(const FakeDisk& disk) {
  for (const auto& [path, text] : disk.files) {
    if (path != kPath) return path;
  }
  return "(none)";
}

// Whatever happened before, the next entry is added to what is there, and no rubbish stays.
void check_next_works(FakeDisk& disk) {
  disk.before = {};
  disk.locks_held = 0;
  const std::string there = disk.files[kPath];
  const Outcome next = record(disk, kPath, "{n: 3, did: note}");
  CHECK(next.said == "done");
  CHECK(next.remarks.empty());
  CHECK(disk.files[kPath] == there + "  - {n: 3, did: note}\n");
  CHECK(others(disk).empty());
}

// The n-th step does something, for n = 1, 2, ... until an append gets by without reaching it.
void at_each_step(bool can_exchange, const std::function<void(int step, FakeDisk&)>& run) {
  for (int n = 1;; ++n) {
    CAPTURE(n);
    REQUIRE(n < 100);
    FakeDisk disk = disk_with(kOld);
    disk.can_exchange = can_exchange;
    run(n, disk);
    int steps = 0;
    FakeDisk whole = disk_with(kOld);
    whole.can_exchange = can_exchange;
    whole.before = [&](std::string_view) { ++steps; };
    REQUIRE(record(whole).said == "done");
    if (n > steps) return;
  }
}

}  // namespace

TEST_CASE("an entry is recorded, and nothing else is left in the folder") {
  for (const bool can_exchange : {true, false}) {
    CAPTURE(can_exchange);
    FakeDisk disk = disk_with(kOld);
    disk.can_exchange = can_exchange;
    const Outcome outcome = record(disk);
    CHECK(outcome.said == "done");
    CHECK(outcome.remarks.empty());
    CHECK(disk.files[kPath] == kNew);
    CHECK(others(disk).empty());
    CHECK(disk.locks_held == 0);
  }
}

TEST_CASE("with nothing to record the file is left alone") {
  FakeDisk disk = disk_with(kOld);
  FakeStopwatch watch;
  disk.before = [](std::string_view step) { CHECK(step != "create"); };
  const auto none = [](const std::string&, const Tree&) { return std::vector<std::string>{}; };
  CHECK(append(disk, kPath, {watch, {}}, none).text == kOld);
}

TEST_CASE("entries are made from what the project holds once it is locked") {
  FakeDisk disk = disk_with("log: []\n");
  disk.before = [&](std::string_view step) {
    if (step == "lock") disk.files[kPath] = kOld;
  };
  FakeStopwatch watch;
  const Appended done = append(disk, kPath, {watch, {}}, [&](const std::string& text, const Tree& tree) {
    CHECK(text == kOld);
    CHECK(tree.root().find("log")->size() == 1);
    CHECK(disk.locks_held == 1);
    return std::vector<std::string>{kEntry};
  });
  CHECK(done.text == kNew);
}

TEST_CASE("whichever step fails, once or for good, the file is the old or the new one, whole, as was said") {
  for (const bool can_exchange : {true, false}) {
    for (const bool for_good : {false, true}) {
      CAPTURE(can_exchange);
      CAPTURE(for_good);
      at_each_step(can_exchange, [&](int n, FakeDisk& disk) {
        int step = 0;
        disk.before = [&](std::string_view) {
          ++step;
          if (step == n || (for_good && step > n)) throw std::system_error(EIO, std::generic_category());
        };
        const Outcome outcome = record(disk);
        CAPTURE(outcome.said);
        CHECK(disk.files[kPath] == (outcome.said == "done" ? kNew : kOld));
        CHECK(disk.locks_held == 0);
        check_next_works(disk);
      });
    }
  }
}

TEST_CASE("at whichever step the process dies, the file is the old or the new one, whole") {
  for (const bool can_exchange : {true, false}) {
    CAPTURE(can_exchange);
    at_each_step(can_exchange, [&](int n, FakeDisk& disk) {
      int step = 0;
      disk.before = [&](std::string_view) {
        if (++step >= n) throw Died();
      };
      try {
        static_cast<void>(record(disk));  // a CHECK would catch it
      } catch (const Died&) {
        CHECK(step == n);
      }
      CHECK((disk.files[kPath] == kNew || disk.files[kPath] == kOld));
      check_next_works(disk);
    });
  }
}

TEST_CASE("at whichever step an editor saves, its version is kept") {
  for (const bool can_exchange : {true, false}) {
    CAPTURE(can_exchange);
    at_each_step(can_exchange, [&](int n, FakeDisk& disk) {
      int step = 0;
      std::string replaced;
      disk.before = [&](std::string_view what) {
        // Where names can't be exchanged, a save right before the renaming goes unseen.
        if (++step == n && (can_exchange || what != "rename")) replaced = std::exchange(disk.files[kPath], kEditors);
      };
      const Outcome outcome = record(disk);
      CAPTURE(outcome.said);
      // What the editor replaced is its own affair, be it the old version or the new one.
      const std::string with_entry = kEditors + "  - " + kEntry + "\n";
      const bool kept = disk.files[kPath] == kEditors || disk.files[kPath] == with_entry || replaced.empty();
      CHECK(kept);
      if (outcome.said != "done") {
        CHECK(outcome.said ==
              kPath +
                  ": another program saved it in the same moment; its version stays and nothing was recorded, so "
                  "give the command once more");
        CHECK(outcome.fault == Fault::file);
        CHECK(disk.files[kPath] == kEditors);
      }
      CHECK(others(disk).empty());
    });
  }
}

TEST_CASE("of two saves in the same moment the later one stays") {
  FakeDisk disk = disk_with(kOld);
  int exchanges = 0;
  disk.before = [&](std::string_view what) {
    if (what == "exchange") disk.files[kPath] = kEditors + "# save " + std::to_string(++exchanges) + "\n";
    if (exchanges == 3) disk.before = {};
  };
  CHECK(record(disk).said.find("another program saved it") != std::string::npos);
  CHECK(disk.files[kPath] == kEditors + "# save 3\n");
  CHECK(others(disk).empty());
}

TEST_CASE("permissions given while the new version waits beside the file are kept") {
  FakeDisk disk = disk_with(kOld);
  disk.before = [&](std::string_view what) {
    if (what == "exchange") disk.attributes[kPath].mode = 0600;
  };
  CHECK(record(disk).said == "done");
  CHECK(disk.files[kPath] == kNew);
  CHECK(disk.attributes[kPath].mode == 0600);
}

TEST_CASE("what is written late into the version that was replaced is kept beside, and told of") {
  FakeDisk disk = disk_with(kOld);
  // A program that had it open: its bytes go into the file itself, whatever that is called by now.
  disk.before = [&](std::string_view what) {
    if (what != "sync_folder") return;
    for (auto& [path, text] : disk.files) {
      if (path != kPath) text += "# late\n";
    }
  };
  const Outcome outcome = record(disk);
  CHECK(outcome.said == "done");
  CHECK(disk.files[kPath] == kNew);
  CHECK(others(disk) == std::vector{kOld + "# late\n"});
  CHECK(outcome.remarks ==
        Remarks{"recorded, but another program wrote into home/wrap.yaml in the same moment; what it "
                "wrote was kept as " +
                beside_it(disk) + ": compare them"});
}

TEST_CASE("permissions that can't be kept are told of") {
  FakeDisk disk = disk_with(kOld);
  disk.before = [&](std::string_view what) {
    if (what == "exchange") disk.attributes[kPath].mode = 0600;
    if (what == "set_mode") throw std::system_error(EPERM, std::generic_category());
  };
  const Outcome outcome = record(disk);
  CHECK(outcome.said == "done");
  CHECK(outcome.remarks == Remarks{"recorded, but the permissions given to home/wrap.yaml in the same moment could not "
                                   "be kept (Operation not permitted)"});
}

TEST_CASE("rights that come of an access list given in the same moment are not taken for the group's") {
  FakeDisk disk = disk_with(kOld);
  disk.before = [&](std::string_view what) {
    if (what != "exchange") return;
    disk.attributes[kPath].mode = 0660;
    disk.attributes[kPath].attributes = {{"system.posix_acl_access", "list"}};
  };
  disk.attributes[kPath].mode = 0600;
  CHECK_FALSE(record(disk).remarks.empty());
  CHECK(disk.attributes[kPath].mode == 0600);
}

TEST_CASE("a file of someone else's is left alone where its owner could not open the new version") {
  struct Row {
    std::string_view case_;
    unsigned mode, group;  // the file's; who writes is in 100
    bool list, recorded;
  };
  for (const Row& row :
       {Row{"its owner's alone", 0600, 100, false, false}, Row{"all may read it", 0644, 100, false, false},
        Row{"a group of both may write it", 0660, 100, false, true},
        Row{"their group, which is not the writer's", 0660, 7, false, false},
        Row{"all may write it", 0666, 7, false, true}, Row{"read-only for its owner as well", 0444, 100, false, true},
        Row{"the writer by name", 0660, 100, true, false}}) {
    CAPTURE(row.case_);
    FakeDisk disk = disk_with(kOld);
    FileFacts& facts = disk.attributes[kPath];
    facts.mode = row.mode;
    facts.owner = 7;
    facts.group = row.group;
    if (row.list) facts.attributes = {{"system.posix_acl_access", "list"}};
    disk.writes_as = FileFacts{};
    disk.writes_as->owner = 8;
    disk.writes_as->group = 100;
    const Outcome outcome = record(disk);
    CHECK(outcome.said.find(row.recorded ? "done" : "belongs to someone else") != std::string::npos);
    CHECK(disk.files[kPath] == (row.recorded ? kNew : kOld));
    CHECK(others(disk).empty());
  }
}

TEST_CASE("what the file held is kept beside where it can't be read again") {
  FakeDisk disk = disk_with(kOld);
  bool exchanged = false;
  disk.before = [&](std::string_view what) {
    if (what == "read" && exchanged) throw std::system_error(EIO, std::generic_category());
    if (what == "exchange") exchanged = true;
  };
  const Outcome outcome = record(disk);
  CHECK(outcome.said == "done");
  CHECK(disk.files[kPath] == kNew);
  CHECK(others(disk) == std::vector{kOld});
  CHECK(outcome.remarks == Remarks{"recorded; what home/wrap.yaml held before can't be read again (Input/output error) "
                                   "and was kept as " +
                                   beside_it(disk)});
}

TEST_CASE("an editor's version that can't be put back is kept beside, and told of until somebody removes it") {
  FakeDisk disk = disk_with(kOld);
  int exchanges = 0;
  disk.before = [&](std::string_view what) {
    if (what != "exchange") return;
    if (++exchanges == 1) disk.files[kPath] = kEditors;
    if (exchanges == 2) throw std::system_error(EIO, std::generic_category());
  };
  const std::string said = record(disk).said;
  CHECK(said ==
        "home/wrap.yaml: another program saved it in the same moment, and there was trouble (Input/output error); one "
        "version is there, the other was kept as " +
            beside_it(disk) + ": compare them");
  CHECK(others(disk) == std::vector{kEditors});
  for (int again = 0; again < 2; ++again) {
    const Outcome next = record(disk);
    CHECK(next.said == "done");
    CHECK(
        next.remarks ==
        Remarks{beside_it(disk) +
                " was left by a command that was cut off, and holds what may be nowhere else; look at it, then remove "
                "it"});
    CHECK(others(disk) == std::vector{kEditors});
  }
}

TEST_CASE("when only the folder's sync fails the entry counts, with a word about it") {
  FakeDisk disk = disk_with(kOld);
  disk.before = [](std::string_view what) {
    if (what == "sync_folder") throw std::system_error(EIO, std::generic_category());
  };
  const Outcome outcome = record(disk);
  CHECK(outcome.said == "done");
  CHECK(outcome.remarks == Remarks{"recorded, but the disk did not confirm it (Input/output error)"});
  CHECK(disk.files[kPath] == kNew);
}

TEST_CASE("a full disk is told in one line, and nothing is lost") {
  FakeDisk disk = disk_with(kOld);
  disk.before = [](std::string_view what) {
    if (what == "write more") throw std::system_error(ENOSPC, std::generic_category());
  };
  CHECK(record(disk).said == "cannot write home/wrap.yaml: No space left on device; nothing was recorded");
  CHECK(disk.files[kPath] == kOld);
  CHECK(others(disk).empty());
}

TEST_CASE("a link is followed and stays") {
  FakeDisk disk = disk_with(kOld);
  disk.links["here.yaml"] = kPath;
  CHECK(record(disk, "here.yaml").said == "done");
  CHECK(disk.files[kPath] == kNew);
  CHECK(disk.files.count("here.yaml") == 0);
}

TEST_CASE("what can't be replaced is refused before anything is written") {
  struct Row {
    std::function<void(FakeDisk&)> make;
    std::string message;
  };
  const auto with = [](const std::function<void(FileFacts&)>& change) {
    return [change](FakeDisk& disk) { change(disk.attributes[kPath]); };
  };
  const std::vector<Row> rows{
      {[](FakeDisk& disk) { disk.files.clear(); }, "cannot open home/wrap.yaml: No such file or directory"},
      {[](FakeDisk& disk) { disk.folders.insert(kPath); },
       "cannot write home/wrap.yaml: it is a folder; name the file in it"},
      {with([](FileFacts& f) { f.kind = FileFacts::Kind::other; }),
       "cannot write home/wrap.yaml: it is no ordinary file"},
      {with([](FileFacts& f) { f.names = 2; }),
       "cannot write home/wrap.yaml: the file has 2 names (hard links), and the others would not see the new entry; "
       "go on with a copy"},
      {with([](FileFacts& f) { f.write_error = EACCES; }),
       "cannot write home/wrap.yaml: it is read-only; make it writable, or go on with a copy"},
      {with([](FileFacts& f) { f.write_error = EROFS; }), "cannot write home/wrap.yaml: Read-only file system"},
      {with([](FileFacts& f) { f.size = Tree::kMostBytes + 1; }),
       "home/wrap.yaml: larger than 64 MB; is it the right file?"},
      {[](FakeDisk& disk) { disk.locked.insert(kPath); }, "cannot open home/wrap.yaml: Permission denied"},
      {[](FakeDisk& disk) { disk.files[kPath] = "log: [{n: 1}]\n"; },
       "home/wrap.yaml:1:6: the log stands in brackets, where no entry can be added; write each entry on its own line, "
       "with '- ' before it"},
  };
  for (const Row& row : rows) {
    FakeDisk disk = disk_with(kOld);
    row.make(disk);
    const auto before = disk.files;
    disk.before = [](std::string_view step) { CHECK(step != "create"); };
    CHECK(record(disk).said == row.message);
    CHECK(disk.files == before);
  }
}

TEST_CASE("what was left half-written is cleared away, whatever the project holds by now") {
  FakeDisk disk = disk_with(kOld);
  disk.before = [](std::string_view what) {
    if (what == "write the rest") throw Died();
  };
  CHECK_THROWS_AS(static_cast<void>(record(disk)), Died);
  REQUIRE(others(disk) == std::vector{kNew.substr(0, kNew.size() - 2)});
  disk.files[kPath] = kEditors;
  disk.before = {};
  disk.locks_held = 0;
  CHECK(record(disk).remarks.empty());
  CHECK(others(disk).empty());
}

TEST_CASE("what an editor saved with an entry of its own is kept, though the project's bytes begin it") {
  FakeDisk disk = disk_with(kOld);
  int exchanges = 0;
  disk.before = [&](std::string_view what) {
    if (what != "exchange") return;
    if (++exchanges == 1) disk.files[kPath] = kNew + "  - {n: 3, did: note, text: mine}\n";
    if (exchanges == 2) throw std::system_error(EIO, std::generic_category());
  };
  CHECK(record(disk).said.find("one version is there, the other was kept as") != std::string::npos);
  REQUIRE(disk.files[kPath] == kNew);
  CHECK(record(disk, kPath, "{n: 3, did: note}").remarks.size() == 1);
  CHECK(others(disk) == std::vector{kNew + "  - {n: 3, did: note, text: mine}\n"});
}

TEST_CASE("files of others that look like left-overs are left alone") {
  FakeDisk disk = disk_with(kOld);
  disk.files["home/.ballchange-notes"] = "";
  disk.files["home/.ballchange"] = "x";
  CHECK(record(disk).remarks.empty());
  CHECK(others(disk).size() == 2);
}

TEST_CASE("a new project is put where none is, and only there") {
  FakeStopwatch watch;
  FakeDisk disk;
  disk.folders.insert("home");
  CHECK(start_file(disk, kPath, {watch, {}}, kOld).empty());
  CHECK(disk.files[kPath] == kOld);
  const auto again = [&](const std::string& path) -> std::string {
    try {
      static_cast<void>(start_file(disk, path, {watch, {}}, "other"));
      return "done";
    } catch (const Problem& problem) {
      CHECK(problem.fault() == Fault::file);
      return problem.what();
    }
  };
  CHECK(again(kPath) == "home/wrap.yaml is there already and was left as it is; choose another name");
  CHECK(again("nowhere/wrap.yaml") ==
        "cannot write nowhere/wrap.yaml: its folder can't be opened: No such file or directory");
  CHECK(again("home/") == "cannot write home/: it names a folder; add the file's name");
  CHECK(disk.files.size() == 1);
  CHECK(disk.files[kPath] == kOld);
}

TEST_CASE("whichever step of starting a project fails or is the last, the file is whole or not there") {
  for (const bool dies : {false, true}) {
    CAPTURE(dies);
    for (int n = 1; n <= 12; ++n) {
      CAPTURE(n);
      FakeStopwatch watch;
      FakeDisk disk;
      disk.folders.insert("home");
      int step = 0;
      disk.before = [&](std::string_view) {
        if (++step < n) return;
        if (dies) throw Died();
        throw std::system_error(EIO, std::generic_category());
      };
      try {
        static_cast<void>(start_file(disk, kPath, {watch, {}}, kOld));
        CHECK(disk.files[kPath] == kOld);
      } catch (const Problem&) {
        CHECK(disk.files.count(kPath) == 0);
      } catch (const Died&) {
        CHECK((disk.files.count(kPath) == 0 || disk.files[kPath] == kOld));
      }
    }
  }
}
