#pragma once
#include <fmt/format.h>

#include <string>
#include <vector>

#include "files/project.hpp"
#include "orchard.hpp"

// A wrap in the manual's example yarn: 60 stitches of 1.85 cm, 1.2 cm a turn, balls of 125 m, felted joins of 8 cm.
namespace ballchange {

inline Project wrap_project() {
  Project project{.name = {}, .units = Unit::cm, .yarn = orchard(), .piece = {}, .join = {}, .entries = {}};
  project.yarn.ball_mass = Mass::g(50);
  project.yarn.ball_length = 12500_cm;
  project.piece.stitches = 60;
  project.piece.rows = 180;
  project.piece.yarn_per_stitch = Amount{1.85, Unit::cm};
  project.piece.yarn_per_turn = Amount{1.2, Unit::cm};
  project.join.method = Method::felted;
  project.join.allowance = Amount{8, Unit::cm};
  return project;
}

// Its file, with entries given from "did" on: {"ball, ball: A", "row, row: 3"}; one a minute from 19:01 on.
inline std::string wrap_file(const std::vector<std::string>& entries, const Project& project = wrap_project()) {
  std::string text = write_project(project);
  if (entries.empty()) return text;
  text.replace(text.find("log: []"), 7, "log:");
  int n = 0;
  for (const std::string& entry : entries) {
    ++n;
    text += fmt::format("  - {{n: {0}, at: 2026-03-01T19:{0:02}:00Z, did: {1}}}\n", n, entry);
  }
  return text;
}

// Ball A in the work, at stitch 12 of row 110; three fresh balls that have been read, and one that has not.
inline std::vector<std::string> wrap_entries() {
  return {"ball, ball: A",
          "ball, ball: B, outside: \"plum 15, sand 11, rust 30\"",
          "ball, ball: C, outside: \"rust 62, moss 14, navy\"",
          "ball, ball: D, outside: \"navy 20, grey 9, plum\"",
          "ball, ball: E",
          "begin, ball: A",
          "row, row: 110, stitch: 12"};
}

// A's loose end at the ball change: place 133, 81 cm of it loose.
inline constexpr const char* kWrapOld = "rust 30, sand 11, plum 40, hook";

}  // namespace ballchange
