#include <doctest/doctest.h>

#include <algorithm>
#include <ctime>
#include <string>
#include <vector>

#include "unit/ledger_log.hpp"

using namespace ballchange;

namespace {

Amount cm(double number) { return {number, Unit::cm}; }

std::string name_of(std::size_t n) { return fmt::format("B{}", n); }

Project project_with(std::vector<Did> entries) {
  Project project = project_of({});
  for (Did& what : entries) {
    project.entries.push_back({static_cast<int>(project.entries.size()) + 1, {}, std::move(what)});
  }
  return project;
}

did::Join join_at(std::size_t ball, int row, Method method) {
  did::Join join;
  join.ball = name_of(ball);
  join.method = method;
  join.shift = cm(0);
  join.row = row;
  return join;
}

std::vector<Did> begun(std::size_t balls) {
  std::vector<Did> log;
  for (std::size_t n = 0; n < balls; ++n) {
    did::Ball ball;
    ball.ball = name_of(n);
    log.emplace_back(ball);
  }
  log.emplace_back(did::Begin{name_of(0), {}});
  return log;
}

// A woven join near the beginning comes apart and is made again, time after time, before all the felted ones.
Project rejoined(std::size_t size) {
  std::vector<Did> log = begun(size);
  log.emplace_back(join_at(1, 2, Method::woven));
  for (std::size_t n = 2; n < size; ++n) log.emplace_back(join_at(n, 2 * static_cast<int>(n), Method::felted));
  for (std::size_t n = 0; n < size; ++n) {
    log.emplace_back(did::Rip{1});
    log.emplace_back(join_at(1, 2, Method::woven));
  }
  return project_with(std::move(log));
}

Project counted(std::size_t size) {
  std::vector<Did> log = begun(size);
  for (std::size_t n = 1; n < size; ++n) {
    const int row = 2 * static_cast<int>(n);
    log.emplace_back(join_at(n, row, Method::felted));
    log.emplace_back(did::Row{row + 1, {}, {fmt::format("row {} rust 40 stitches", row)}});
  }
  return project_with(std::move(log));
}

// From the last row to the first.
Project seen_backwards(std::size_t size) {
  did::Row row{static_cast<int>(size), {}, {}};
  for (std::size_t n = size; n > 0; --n) row.seen.push_back(fmt::format("row {} stitch 3 rust begins", n));
  std::vector<Did> log = begun(1);
  log.emplace_back(row);
  return project_with(std::move(log));
}

// Every end was read, lost to a swatch, and read again.
Project read_again(std::size_t size) {
  std::vector<Did> log;
  for (std::size_t n = 0; n < size; ++n) {
    did::Ball ball;
    ball.ball = name_of(n);
    ball.outside = "plum 20, rust";
    log.emplace_back(ball);
    log.emplace_back(did::Swatch{ball.ball, cm(100)});
  }
  for (std::size_t n = size; n > 0; --n) {
    did::Ball ball;
    ball.ball = name_of(n - 1);
    ball.outside = "plum 30, rust";
    log.emplace_back(ball);
  }
  return project_with(std::move(log));
}

// The least of five, so that a busy machine fails nothing.
double seconds_to_fold(const Project& project) {
  std::clock_t least = 0;
  for (int time = 0; time < 5; ++time) {
    const std::clock_t start = std::clock();
    (void)fold(project);
    const std::clock_t spent = std::clock() - start;
    least = time == 0 ? spent : std::min(least, spent);
  }
  return static_cast<double>(least) / CLOCKS_PER_SEC;
}

}  // namespace

// Ten times the entries take ten times as long; a hundred times where a step walks over all that stands before it.
TEST_CASE("a log is folded in a time that grows as its entries do") {
  struct Row {
    const char* name;
    Project (*make)(std::size_t);
    std::size_t size;
  };
  for (const Row& row :
       {Row{"a join made again before a long chain", rejoined, 2'000},
        Row{"every joined section counted", counted, 1'000}, Row{"sightings told backwards", seen_backwards, 2'000},
        Row{"every end read again", read_again, 2'000}}) {
    CAPTURE(row.name);
    const double few = seconds_to_fold(row.make(row.size));
    const double many = seconds_to_fold(row.make(10 * row.size));
    CAPTURE(few);
    CAPTURE(many);
    CHECK(many < 30 * few);
  }
}
