#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <system_error>
#include <vector>

#include "base/problem.hpp"
#include "files/lock.hpp"
#include "unit/files_fake_disk.hpp"

using namespace ballchange;

namespace {

struct FakeStopwatch : Stopwatch {
  double at = 100;
  [[nodiscard]] double seconds() const override { return at; }
  void pause(double seconds) override { at += seconds; }
};

std::string refusal(const Disk& disk, const Patience& patience) {
  try {
    const auto held = lock_folder(disk, "home", "home/wrap.yaml", patience);
    return "locked";
  } catch (const Problem& problem) {
    CHECK(problem.fault() == Fault::file);
    return problem.what();
  }
}

}  // namespace

TEST_CASE("a free folder is locked at once, and without a word") {
  const FakeDisk disk;
  FakeStopwatch watch;
  int said = 0;
  CHECK(refusal(disk, {watch, [&] { ++said; }}) == "locked");
  CHECK(said == 0);
  CHECK(watch.at == 100);
  CHECK(disk.locks_held == 0);
}

TEST_CASE("a lock that is let go of in time is waited for, and said so once after a second") {
  for (const double busy : {0.5, 0.99, 1.5, 29.0}) {
    CAPTURE(busy);
    FakeDisk disk;
    FakeStopwatch watch;
    disk.taken = [&] { return watch.at < 100 + busy; };
    std::vector<double> said;
    CHECK(refusal(disk, {watch, [&] { said.push_back(watch.at - 100); }}) == "locked");
    REQUIRE(said.size() == (busy > 1 ? 1 : 0));
    if (busy > 1) CHECK(std::abs(said[0] - 1) < 0.1);
    CHECK(watch.at - 100 >= busy);
  }
}

TEST_CASE("after 30 seconds the wait is given up") {
  FakeDisk disk;
  FakeStopwatch watch;
  disk.taken = [] { return true; };
  CHECK(refusal(disk, {watch, {}}) ==
        "home/wrap.yaml: another program has kept its folder locked for 30 s; nothing was recorded, try again when it "
        "is done");
  CHECK(std::abs(watch.at - 130) < 0.1);
}

TEST_CASE("a folder that can't be locked is told with the cause") {
  FakeDisk disk;
  FakeStopwatch watch;
  disk.before = [](std::string_view) { throw std::system_error(EACCES, std::generic_category()); };
  CHECK(refusal(disk, {watch, {}}) ==
        "cannot lock the folder of home/wrap.yaml: Permission denied; nothing was recorded");
}

TEST_CASE("on a real disk a folder has one lock, which ends with its holder") {
  const RealDisk disk;
  const std::string folder = std::filesystem::temp_directory_path() / "ballchange-lock-XXXXXX";
  std::string made = folder;
  REQUIRE(::mkdtemp(made.data()) != nullptr);
  {
    const auto held = disk.try_lock(made);
    REQUIRE(held);
    CHECK_FALSE(disk.try_lock(made));
  }
  CHECK(disk.try_lock(made));
  CHECK(disk.names_in(made).empty());
  std::filesystem::remove(made);
}
