#include <doctest/doctest.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <numeric>
#include <sstream>

#include "base/random.hpp"
#include "plan/branch.hpp"
#include "plan/drum.hpp"
#include "plan/order.hpp"
#include "slow/slow_order.hpp"

// The best order against published and independently worked examples; their sources are in tests/checks/SOURCES.md.
namespace ballchange::plan {
namespace {

constexpr const char* checks = BALLCHANGE_TESTS "/checks/";

std::vector<std::string> lines_of(const std::string& name) {
  std::ifstream file(checks + name);
  std::vector<std::string> lines;
  for (std::string line; std::getline(file, line);)
    if (!line.empty() && line[0] != '#') lines.push_back(line);
  REQUIRE_MESSAGE(!lines.empty(), name, " is missing or empty");
  return lines;
}

std::vector<double> numbers(const std::string& line) {
  std::vector<double> result;
  std::istringstream cells(line);
  for (std::string cell; std::getline(cells, cell, ',');) result.push_back(YAML::Load(cell).as<double>());
  return result;
}

Tenths from_cm(const YAML::Node& node) { return tenths(Length::cm(node.as<double>())); }

Hand hand_of(const YAML::Node& row) {
  Hand hand;
  hand.period = from_cm(row["R"]);
  hand.allowance = from_cm(row["m"]);
  hand.tolerance = from_cm(row["t"]);
  hand.sparing = true;
  if (row["palindromic"].as<bool>()) hand.mirror = 0;
  if (row["start"]) hand.begin = Begin{from_cm(row["start"]), 0, 0};
  for (const YAML::Node& ball : row["balls"]) hand.balls.push_back({from_cm(ball["s"]), from_cm(ball["e"]), 0});
  return hand;
}

// Taha, Operations Research: An Introduction, 10th ed., Problem 11-13 (after Garfinkel 1977): six sheets cut from a
// roll of wallpaper, places in thousandths of the pattern. The paper runs the other way round the circle.
Hand wallpaper() {
  Hand hand;
  hand.period = 1000;
  for (const std::string& line : lines_of("wallpaper.csv")) {
    if (line.rfind("sheet", 0) == 0) continue;
    const std::vector<double> row = numbers(line);
    const auto mirrored = [](double part) { return wrapped(-std::llround(part * 1000), 1000); };
    hand.balls.push_back({mirrored(row[1]), mirrored(row[3]), 0});
  }
  REQUIRE(hand.balls.size() == 6);
  return hand;
}

TEST_CASE("balls of which every one is needed are put in order as well as if that had not been told") {
  const unsigned seed = 77;
  Random random(seed);
  CAPTURE(seed);
  Hand hand;
  hand.period = 27'600;
  hand.allowance = 800;
  hand.tolerance = 370;
  for (int k = 0; k < 40; ++k) {
    const auto start = static_cast<Tenths>(random.below(27'600));
    hand.balls.push_back({start, static_cast<Tenths>(random.below(27'600)), 1'250'000});
  }
  const Best told_nothing = best_order(hand);
  hand.need = 1'250'000 * 39 + 400'000;
  const Best all_needed = best_order(hand);
  CHECK(all_needed.enough);
  CHECK(all_needed.order.balls.size() == 40);
  CHECK(all_needed.order.discard == told_nothing.order.discard);
  // And of many more than are needed some that cut nothing.
  hand.need = 1'250'000 * 2;
  const Best few = best_order(hand);
  CHECK(few.enough);
  CHECK(few.proven);
  CHECK(few.order.balls.size() == 3);
  CHECK(few.order.discard == 0);
}

}  // namespace

// The worst of 5.41, and 1.41 plus whole patterns for every order, were computed by trying all.
TEST_CASE("wallpaper from one roll: the best order wastes 1.41 patterns, the worst 5.41") {
  Hand hand = wallpaper();
  // The roll begins and ends at the pattern's own edge: a seventh sheet of no length.
  hand.begin = Begin{0, 0, 0};
  std::array<std::size_t, 6> order{0, 1, 2, 3, 4, 5};
  Tenths least = never;
  Tenths most = 0;
  do {
    std::vector<Placed> balls;
    for (const std::size_t ball : order) balls.push_back({ball, false});
    const Tenths back = trim(hand, *hand.balls[order.back()].finish).discard;  // to the roll's edge
    const Tenths total = cut(hand, balls).discard + back;
    CHECK(total % 1000 == 410);
    least = std::min(least, total);
    most = std::max(most, total);
  } while (std::next_permutation(order.begin(), order.end()));
  CHECK(least == 1410);
  CHECK(most == 5410);

  // The same circle, found: the edge as a ball that is worked last.
  hand.balls.push_back({0, 0, 0});
  CHECK(least_totals(hand)[6] == 1410);
}

TEST_CASE("wallpaper: what joining one sheet to another wastes is as published") {
  const Hand hand = wallpaper();
  const std::vector<std::string> rows = lines_of("wallpaper_w.csv");
  REQUIRE(rows.size() == 7);
  const Trims trims(hand);
  for (std::size_t i = 1; i <= 6; ++i) {
    const std::vector<double> w = numbers(rows[i]);
    for (std::size_t j = 1; j <= 6; ++j) {
      CAPTURE(i);
      CAPTURE(j);
      if (i != j) CHECK(trims(i - 1, j - 1) == std::llround(w[j]));
    }
  }
}

TEST_CASE("worked sets of balls: the least total of trims and allowances") {
  for (const std::string& line : lines_of("order_cases.jsonl")) {
    const YAML::Node row = YAML::Load(line);
    CAPTURE(row["name"].as<std::string>());
    const Hand hand = hand_of(row);
    const Best best = best_order(hand);
    const Tenths allowances = static_cast<Tenths>(hand.balls.size() - 1) * hand.allowance;
    CHECK(best.order.discard + allowances == from_cm(row["optimum"]));
    CHECK(best.bound <= best.order.discard);
    CHECK(best.proven == (best.bound == best.order.discard));
    CHECK(slow::wrong_with(hand, best.order) == "");
  }
}

TEST_CASE("with a tolerance the cheapest joins need not make one chain") {
  // Three balls in a ring, repeat 12, tolerance 1, used sparingly: each could follow itself for nothing; the best ring
  // cuts 7. The ring is opened at each ball in turn, so that its first ball is the wanted place too.
  Hand hand;
  hand.period = 12;
  hand.tolerance = 1;
  hand.sparing = true;
  hand.balls = {{1, 0, 0}, {11, 10, 0}, {3, 3, 0}};
  for (const Ball& ball : hand.balls) CHECK(trim(hand, *ball.finish - *ball.start).discard == 0);
  std::array<std::size_t, 3> order{0, 1, 2};
  Tenths least = never;
  do {
    const std::vector<Placed> balls{{order[0], false}, {order[1], false}, {order[2], false}};
    least = std::min(least, cut(hand, balls).discard +
                                trim(hand, *hand.balls[order[2]].finish - *hand.balls[order[0]].start).discard);
  } while (std::next_permutation(order.begin(), order.end()));
  CHECK(least == 7);
  // Opened where it costs most: the search finds that chain.
  CHECK(best_order(hand).order.discard == slow::least_cut(hand)->discard);
}

}  // namespace ballchange::plan
