#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/state.hpp"
#include "show/place.hpp"

// The words of a question at the terminal: lines above it, then what stands before the answer.
namespace ballchange {

struct AskedText {
  std::string lines;   // wrapped by whoever shows them; empty for none
  std::string prompt;  // without the colon
};

// One of the two sides of a knot, the old end the one towards the work.
[[nodiscard]] AskedText knot_side_asked(End end, const Repeat& repeat, Told told);
// What was read before of that end, if anything, is taken by Enter.
[[nodiscard]] AskedText end_asked(End end, const Repeat& repeat, Told told, const std::optional<std::string>& before);
// The same where no yarn is known.
[[nodiscard]] AskedText end_asked(End end);
[[nodiscard]] AskedText ball_end_asked(BallEnd end, const Repeat& repeat, Told told);
// The other one of the same ball, right after that.
[[nodiscard]] AskedText other_end_asked(BallEnd end);
// Which fresh ball is joined; one line each.
[[nodiscard]] AskedText fresh_ball_asked(const std::vector<const BallState*>& fresh);
[[nodiscard]] AskedText yarn_asked(const std::vector<std::string>& names);
[[nodiscard]] AskedText project_asked(const std::vector<std::string>& files);
[[nodiscard]] AskedText method_asked(bool felts);
// The question of an unsettled reading, and how it is answered.
[[nodiscard]] AskedText settling_asked(const PlaceShown& shown, Told told);

}  // namespace ballchange
