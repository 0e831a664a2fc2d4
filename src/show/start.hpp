#pragma once
#include <string>
#include <vector>

#include "ledger/project.hpp"
#include "ledger/state.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

// A project that was just opened.
namespace ballchange {

struct StartShown {
  const std::string& path;
  const Project& project;
  const State& state;
  std::vector<std::string> remarks;
  bool written = true;      // false for a dry run
  const std::string& text;  // what the file holds
  std::string piece_line;   // of the file, as it becomes once the stitches of a row are known
};

[[nodiscard]] std::string start_screen(const StartShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string start_json(const StartShown& shown);

}  // namespace ballchange
