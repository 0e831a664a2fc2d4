#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "stock/enough.hpp"
#include "unit/ledger_log.hpp"

// "Enough in 80 %" must come true in 80 of 100. Pieces are worked here row by row in grams and centimetres of their
// own, and only what somebody would write down reaches the program.
namespace ballchange::stock {
namespace {

constexpr double kRow = 110, kTurn = 10, kBall = 5000, kPerGram = 100, kRepeat = 276, kTolerance = 4, kAllowance = 10;
constexpr std::uint64_t kSeed = 20'261'126;

// One piece and how it ends.
struct Piece {
  std::vector<std::string> log;
  int rows = 0;
  bool enough = false;
};

double written(double grams, double step) { return std::round(grams / step) * step; }

Piece work_a_piece(Random& random) {
  Piece piece;
  const double step = random.below(2) == 0 ? 1 : 0.1;
  const bool weighed_whole = random.below(2) == 0;
  const auto balls = 2 + static_cast<int>(random.below(4));
  std::vector<double> grams;
  for (int k = 0; k < balls; ++k) {
    grams.push_back(50 * (1 + 0.02 * random.normal()));
    piece.log.push_back(fmt::format("ball, ball: B{}", k));
    if (weighed_whole) piece.log.back() += fmt::format(", mass: {:.1f} g", written(grams.back(), step));
  }
  piece.log.emplace_back("begin, ball: B0");
  // Yarn by the label: what this label and these hands make of a row.
  double share = 1 + std::hypot(0.02, 0.02) * random.normal();
  double left = grams[0] * kPerGram - 10;
  int at = 1 + static_cast<int>(random.below(10));
  // Where a row ends the turn after it isn't made yet.
  left -= share * (kRow * at - kTurn);
  piece.log.push_back(fmt::format("row, row: {}", at));
  const auto weighings = static_cast<int>(random.below(3));
  for (int k = 0; k < weighings; ++k) {
    const int rows = k == 0 ? 0 : 3 + static_cast<int>(random.below(16));
    at += rows;
    left -= share * kRow * rows;
    piece.log.push_back(fmt::format("row, row: {}", at));
    piece.log.push_back(
        fmt::format("weigh, ball: B0, mass: {:.1f} g, scale: {} g", written(left / kPerGram, step), step));
    share += 0.01 * random.normal();
  }
  const double held = left + (balls - 1) * kBall;
  piece.rows = at + static_cast<int>(std::lround(held * (0.85 + 0.2 * random.uniform()) / kRow));
  double need = share * kRow * (piece.rows - at);
  for (int k = 1; k < balls && need > left; ++k) {
    const double off = kRepeat * random.uniform();
    left += grams[static_cast<std::size_t>(k)] * kPerGram - kAllowance - (off < kRepeat - kTolerance ? off : 0);
  }
  piece.enough = left >= need;
  return piece;
}

TEST_CASE("yarn is enough as often as is said") {
  Random random(kSeed);
  CAPTURE(kSeed);
  constexpr int kPieces = 20'000;
  struct Bin {
    int pieces = 0, enough = 0;
    double told = 0;
  };
  std::array<Bin, 5> bins{};
  Bin first;  // of 5,000
  for (int k = 0; k < kPieces; ++k) {
    CAPTURE(k);
    const Piece piece = work_a_piece(random);
    const std::string text = fmt::format(
        "piece: {{stitches: 50, rows: {}, yarn_per_stitch: 2 cm, yarn_per_turn: 10 cm, foundation: 10 cm}}\n",
        piece.rows);
    const State state = fold_of(piece.log, text);
    REQUIRE(state.troubles.empty());
    const auto told = outlook(state, stock_of(state, doubts_of(state)),
                              {Length::cm(kRepeat), Length::cm(kAllowance), Length::cm(kTolerance)});
    REQUIRE(told);
    Bin& bin = bins[std::min<std::size_t>(4, static_cast<std::size_t>(told->chance * 5))];
    for (Bin* one : {&bin, &first}) {
      if (one == &first && k >= 5000) continue;
      ++one->pieces;
      one->enough += piece.enough ? 1 : 0;
      one->told += told->chance;
    }
  }
  const auto told = [](const Bin& bin) { return bin.told / bin.pieces; };
  const auto came_true = [](const Bin& bin) { return static_cast<double>(bin.enough) / bin.pieces; };
  std::cout << fmt::format("seed {}: 5,000 pieces, told {:.1f} %, came true {:.1f} %\n", kSeed, told(first) * 100,
                           came_true(first) * 100);
  CHECK(std::abs(told(first) - came_true(first)) < 0.02);
  for (const Bin& bin : bins) {
    std::cout << fmt::format("  {} pieces told {:.1f} %, came true {:.1f} %\n", bin.pieces, told(bin) * 100,
                             came_true(bin) * 100);
    CHECK(bin.pieces > 1000);
    CHECK(std::abs(told(bin) - came_true(bin)) < 0.02);
  }
}

}  // namespace
}  // namespace ballchange::stock
