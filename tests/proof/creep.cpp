#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "creep/follow.hpp"
#include "unit/ledger_log.hpp"

using namespace ballchange;
using namespace ballchange::creeping;

// Plum 150 cm and rust 126, plus-minus 0.5 cm + 6 %; rows of 50 stitches of 2 cm and a turn of 10 by the gauge.
namespace {

constexpr double kPlum = 150, kRust = 126, kPlumSd = 9.5, kRustSd = 8.06;
constexpr double kFoundation = 10, kTurn = 10, kGauge = 2, kRow = 50;

struct Truth {
  double looser = 0, longer = 0;
};

// A work of `rows` rows that began 100 cm into plum, by a hand and a ball that differ from gauge and yarn; what a
// crafter would see of it, half a stitch off.
std::string seen_of(const Truth& truth, int rows, Random& random) {
  const double stitch = kGauge * (1 + truth.looser);
  const double row = kRow * stitch + kTurn;
  std::string list;
  double change = 50 * (1 + truth.longer) - kFoundation;  // yarn in rows at the next change
  for (bool rust = true;; rust = !rust) {
    const double counted = change + 0.4 * stitch * random.normal();
    const int at = static_cast<int>(std::floor(counted / row));
    if (at >= rows) return list;
    if (at >= 0) {
      const long done = std::min(std::lround((counted - at * row) / stitch), 49L);
      list += fmt::format("{}\"row {} stitch {} {} begins\"", list.empty() ? "" : ", ", at + 1, done + 1,
                          rust ? "rust" : "plum");
    }
    const double length = rust ? kRust + kRustSd * random.normal() : kPlum + kPlumSd * random.normal();
    change += length * (1 + truth.longer);
  }
}

double root_mean_square(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value * value;
  return std::sqrt(sum / static_cast<double>(values.size()));
}

}  // namespace

TEST_CASE("nine in ten real yarns per stitch and creeps lie within what is given or taken") {
  constexpr std::uint64_t seed = 1717;
  constexpr int works = 400;
  Random random(seed);
  int stitch_held = 0;
  int creep_held = 0;
  int told_wrong_way = 0;
  for (int work = 0; work < works; ++work) {
    CAPTURE(seed);
    CAPTURE(work);
    const Truth truth{0.03 * random.normal(), 0.02 * random.normal()};
    const int rows = 10 + static_cast<int>(random.below(50));
    const State state = fold_of({"ball, ball: A", "begin, ball: A",
                                 fmt::format("row, row: {}, seen: [{}]", rows, seen_of(truth, rows, random))});
    const auto creep = follow(state, state.yarn.repeat, Start{100_cm, 0.01});
    REQUIRE(creep);
    const double off_stitch = std::abs(creep->looser.mean - truth.looser) / creep->looser.sd;
    const double off_creep = std::abs(creep->creep.mean - (truth.looser - truth.longer)) / creep->creep.sd;
    stitch_held += off_stitch < 1.645 ? 1 : 0;
    creep_held += off_creep < 1.645 ? 1 : 0;
    told_wrong_way += creep->plain() && creep->creep.mean * (truth.looser - truth.longer) < 0 ? 1 : 0;
  }
  MESSAGE(
      fmt::format("seed {}: of {} works {} yarns per stitch and {} creeps within nine in ten; {} told the wrong way",
                  seed, works, stitch_held, creep_held, told_wrong_way));
  CHECK(stitch_held > works * 0.86);
  CHECK(stitch_held < works * 0.94);
  CHECK(creep_held > works * 0.86);
  CHECK(creep_held < works * 0.95);
  CHECK(told_wrong_way < works * 0.02);
}

namespace {

enum class Counting { none, whole_stitches, half_stitches };

constexpr const char* kNoTurns = "piece: {worked: rounds, stitches: 50, yarn_per_stitch: 2 cm}\n";

// A long work, kept in step from the start: each join aims at undoing the running shift that the ledger has, within the
// tolerance of two stitches less 1.5 cm; it comes out 1.5 cm off, and half a centimetre short each time. The true
// running shift after every join.
std::vector<double> true_shifts(int joins, Counting counting, Random& random) {
  constexpr double tolerance = 2 * kGauge - 1.5;
  std::vector<std::string> log{"ball, ball: B0", "begin, ball: B0"};
  std::vector<double> running{0};
  for (int n = 1; n <= joins; ++n) {
    const State before = fold_of(log, kNoTurns);
    const double planned = std::clamp(-before.totals.running_shift->cm(), -tolerance, tolerance);
    const double real = planned - 0.5 + 1.5 * random.normal();
    running.push_back(running.back() + real);
    log.push_back(fmt::format("ball, ball: B{}", n));
    log.push_back(fmt::format("join, ball: B{}, row: {}, stitch: 25, shift: {:.4f} cm", n, 10 * n, planned));
    if (counting == Counting::none) continue;
    const double step = counting == Counting::half_stitches ? 0.5 : 1;
    const auto grid = [&](double at) { return std::round(at / step) * step; };
    const double stitches = (kRust - real) / kGauge;
    const double begins = random.uniform();
    log.push_back(
        fmt::format("row, row: {}, seen: [\"rust {} stitches\"]", 10 * n + 1, grid(begins + stitches) - grid(begins)));
  }
  return running;
}

}  // namespace

TEST_CASE("counting every joined section keeps the running shift bounded; without it wanders") {
  constexpr std::uint64_t seed = 41;
  constexpr int projects = 60;
  constexpr int joins = 40;
  const auto wander = [&](Counting counting, const char* what) {
    Random random(seed);
    std::vector<std::vector<double>> after(3);
    for (int project = 0; project < projects; ++project) {
      const std::vector<double> running = true_shifts(joins, counting, random);
      for (std::size_t i = 0; i < 3; ++i) after[i].push_back(running[std::size_t{10} << i]);
    }
    std::vector<double> spread;
    for (const auto& shifts : after) spread.push_back(root_mean_square(shifts));
    MESSAGE(fmt::format("seed {}, {} projects, {}: running shift after 10, 20, 40 joins {:.1f}, {:.1f}, {:.1f} cm",
                        seed, projects, what, spread[0], spread[1], spread[2]));
    return spread;
  };
  const auto none = wander(Counting::none, "nothing counted");
  const auto whole = wander(Counting::whole_stitches, "counted in whole stitches");
  const auto half = wander(Counting::half_stitches, "counted to half a stitch");
  CHECK(none[2] > 4 * 2 * kGauge);  // four times the tolerance of two stitches
  CHECK(none[2] > 2.5 * none[0]);
  // What is left is the last join's own 1.5 cm, and the counting itself.
  CHECK(half[2] < 2 * kGauge);
  CHECK(half[2] < 1.8 * half[0]);
  CHECK(whole[2] < 3 * kGauge);
}
