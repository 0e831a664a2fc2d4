#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "offcut/kept.hpp"
#include "show/json.hpp"
#include "show/text.hpp"

// What was cut off and is kept, for people and for tools.
namespace ballchange {

struct OffcutsShown {
  const State& state;
  std::string path;  // of the project
  offcuts::LongEnough enough;
  std::vector<offcuts::Kept> kept = {};
};

// " --cut-from new" where two pieces were cut off at its entry; otherwise empty.
[[nodiscard]] std::string offcut_cut_from(const State& state, const OffcutState& offcut);
// One by one with their colours, what each colour is long enough for, and what to type, as lines of a screen.
[[nodiscard]] std::string offcut_lines(const OffcutsShown& shown, Told told, std::size_t columns);
// How many there are, as a line of a screen; empty where there are none.
[[nodiscard]] std::string offcuts_line(const OffcutsShown& shown, Told told, std::size_t columns);
// "86 cm: plum 15 cm, sand 11 cm, rust 60 cm." of a ball that is an offcut; nothing placed: how to tell its ends.
[[nodiscard]] std::string offcut_ball_text(const State& state, const BallState& ball,
                                           const std::optional<offcuts::Offcut>& placed, Told told);

// The members `offcuts` and `offcuts_used`.
void offcuts_member(Json& json, const OffcutsShown& shown);

}  // namespace ballchange
