#pragma once
#include <cstddef>
#include <optional>
#include <string>

#include "ledger/state.hpp"
#include "stock/on_balls.hpp"

// Where the rows and the scale contradict each other, in words that every screen shares.
namespace ballchange {

struct ScaleContradiction {
  std::string told;  // "the rows and the scale don't go together on ball A: weigh it again", or ", weighed twice"
  // Borne out by a second weighing: the scale has said all it can, and the record is to be looked through.
  bool twice = false;
  std::string asked;  // "Was a row, a join or a swatch not recorded, ...?"
  // What may have been misread, of the weighings on record; null where none stands out. Points into the state.
  const Weighing* suspect = nullptr;
};
// Of the ball that the stock of this state holds odd; nothing where there is none.
[[nodiscard]] std::optional<ScaleContradiction> scale_contradiction(const State& state, const stock::Stock& stock);
// The same as lines of a screen, with what to type; `path` is the project's. Empty where there is none.
[[nodiscard]] std::string contradiction_lines(const State& state, const stock::Stock& stock, const std::string& path,
                                              std::size_t columns);

}  // namespace ballchange
