#pragma once
#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

#include "files/project.hpp"
#include "ledger/fold.hpp"

// Logs written short, and what they fold to as text, for tables of tests.
namespace ballchange {

// A row takes 50 x 2 + 10 = 110 cm and the foundation 10, so that R whole rows hold 110 R. A ball is 5,000 cm, a gram
// of it a metre. Threaded joins take 10 cm unless told.
inline constexpr const char* kPiece =
    "piece: {stitches: 50, rows: 100, yarn_per_stitch: 2 cm, yarn_per_turn: 10 cm, foundation: 10 cm}\n";
inline constexpr const char* kYarn =
    "yarn:\n  name: Tally\n  felts: true\n  ball: {mass: 50 g, length: 50 m}\n"
    "  repeat: [{colour: plum, length: 150 cm}, {colour: rust, length: 126 cm}]\n";

inline std::string project_text(const std::vector<std::string>& log, const std::string& piece = kPiece) {
  std::string text = "format: ballchange project 1\n" + std::string(kYarn) + piece + "log:";
  if (log.empty()) text += " []";
  text += '\n';
  for (std::size_t i = 0; i < log.size(); ++i) {
    text += fmt::format("  - {{n: {}, at: 2026-03-02T19:20:00Z, did: {}}}\n", i + 1, log[i]);
  }
  return text;
}

inline Project project_of(const std::vector<std::string>& log, const std::string& piece = kPiece) {
  return read_project(project_text(log, piece), "p.yaml").project;
}

inline State fold_of(const std::vector<std::string>& log, const std::string& piece = kPiece) {
  return fold(project_of(log, piece));
}

// To a ten-thousandth, without trailing zeros.
inline std::string text_of(std::optional<Length> length) {
  return length ? fmt::format("{}", std::round(length->cm() * 1e4) / 1e4 + 0.0) : "?";
}

inline std::string text_of(const std::optional<WorkPlace>& at) {
  if (!at) return "-";
  return at->stitch ? fmt::format("{}:{}", at->row, *at->stitch) : fmt::format("{}", at->row);
}

// "10:20 1040": where the work stands, and the yarn in it.
inline std::string work_of(const State& state) { return text_of(state.at) + " " + text_of(state.used); }

// "A used up, B working 3900, C fresh 5000".
inline std::string balls_of(const State& state) {
  std::string out;
  for (const BallState& ball : state.balls) {
    if (!out.empty()) out += ", ";
    out += ball.id;
    if (ball.use == BallUse::used_up) out += " used up";
    if (ball.use == BallUse::working) out += " working " + text_of(ball.left);
    if (ball.use == BallUse::joined_ahead) out += " ahead " + text_of(ball.left);
    if (ball.use == BallUse::fresh) out += " fresh " + text_of(ball.left);
  }
  return out;
}

// "A-B 10:50, B-C ahead 12:5".
inline std::string joins_of(const State& state) {
  std::string out;
  for (const JoinState& join : state.joins) {
    if (!out.empty()) out += ", ";
    out += fmt::format("{}-{}", join.old_ball, join.new_ball);
    if (join.held == JoinHeld::ahead) out += " ahead";
    if (join.held == JoinHeld::apart) out += " apart";
    if (join.held == JoinHeld::cut_out) out += " cut out";
    if (join.held == JoinHeld::in_work || join.held == JoinHeld::ahead) out += " " + text_of(join.place);
  }
  return out;
}

inline std::string troubles_of(const State& state) {
  std::string out;
  for (const Trouble& trouble : state.troubles) {
    out += fmt::format("{}{}: {}\n", trouble.entry, trouble.skipped ? "" : " (counts)", trouble.message);
  }
  return out;
}

}  // namespace ballchange
